package server

import (
	"net/netip"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"github.com/labstack/echo/v4"
)

// The paces (our choice): a phone back from a holiday must get through, a
// script that guesses codes must not.
const (
	strangerRate, strangerBurst = 2, 40 // requests a second per address (IPv6: per /64)
	deviceRate, deviceBurst     = 5, 60 // requests a second per device
	opRate, opBurst             = 2000.0 / 60, 20000
	guessRate, guessBurst       = 5.0 / 60, 5     // wrong codes of one household
	hourRate, hourBurst         = 20.0 / 3600, 20 // wrong codes in an hour
	maxBuckets                  = 4096
)

// limits are the token buckets of a process. Each is safe for concurrent use.
type limits struct {
	now       func() time.Time
	strangers *buckets
	devices   *buckets
	ops       *buckets
	guess     *rate.Limiter
	hour      *rate.Limiter
}

func newLimits(now func() time.Time) *limits {
	return &limits{
		now:       now,
		strangers: newBuckets(strangerRate, strangerBurst),
		devices:   newBuckets(deviceRate, deviceBurst),
		ops:       newBuckets(opRate, opBurst),
		guess:     rate.NewLimiter(guessRate, guessBurst),
		hour:      rate.NewLimiter(hourRate, hourBurst),
	}
}

// take takes n tokens, or says when to come again.
func take(l *rate.Limiter, now time.Time, n int) error {
	r := l.ReserveN(now, n)
	wait := r.DelayFrom(now)
	if r.OK() && wait == 0 {
		return nil
	}
	r.CancelAt(now)
	p := problem("too-many", "Too many requests at once; what waits will be taken in a moment.")
	p.retry = min(max(wait, time.Second), time.Hour)
	return p
}

// mayGuess tells whether a code may be tried that could be a guess.
func (l *limits) mayGuess() error {
	now := l.now()
	for _, b := range []*rate.Limiter{l.guess, l.hour} {
		if b.TokensAt(now) < 1 {
			p := problem("too-many", "Too many wrong codes; wait a few minutes, or scan the code instead of typing it.")
			p.retry = time.Minute
			return p
		}
	}
	return nil
}

// guessed counts a code that was wrong.
func (l *limits) guessed() {
	now := l.now()
	l.guess.AllowN(now, 1)
	l.hour.AllowN(now, 1)
}

// buckets are one limiter per key; those that are full again are forgotten.
type buckets struct {
	mu    sync.Mutex
	rate  rate.Limit
	burst int
	by    map[string]*rate.Limiter
}

func newBuckets(r rate.Limit, burst int) *buckets {
	return &buckets{rate: r, burst: burst, by: map[string]*rate.Limiter{}}
}

func (b *buckets) take(key string, now time.Time, n int) error {
	b.mu.Lock()
	l := b.by[key]
	if l == nil {
		if len(b.by) >= maxBuckets {
			b.forget(now)
		}
		if len(b.by) >= maxBuckets {
			key = "" // under a flood of addresses, newcomers share one bucket
		}
		if l = b.by[key]; l == nil {
			l = rate.NewLimiter(b.rate, b.burst)
			b.by[key] = l
		}
	}
	b.mu.Unlock()
	return take(l, now, n)
}

func (b *buckets) forget(now time.Time) {
	for key, l := range b.by {
		if l.TokensAt(now) >= float64(b.burst) {
			delete(b.by, key)
		}
	}
}

// strangerKey is the address a stranger's requests are counted under. An IPv6
// customer owns a whole /64.
func strangerKey(c echo.Context) string {
	addr, err := netip.ParseAddr(c.RealIP())
	if err != nil {
		return "unreadable"
	}
	addr = addr.Unmap().WithZone("")
	if addr.Is4() {
		return addr.String()
	}
	p, err := addr.Prefix(64)
	if err != nil {
		return "unreadable"
	}
	return p.String()
}
