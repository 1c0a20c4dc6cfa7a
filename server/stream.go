package server

import (
	"net/http"
	"sync"
	"time"

	"github.com/labstack/echo/v4"
)

// A comment goes out this often, so that both ends notice a dead line; a write
// that the line does not take in time ends the stream.
const (
	keepAlive = 15 * time.Second
	writeTime = 10 * time.Second
)

// streamsMost is how many streams one device may hold open (our choice): one will
// do, and lines that died are noticed only when something is written to them.
const streamsMost = 8

const ripple = "event: ripple\ndata: {}\n\n"

// hub tells the open streams that there is news. What the news is they learn by
// an exchange.
type hub struct {
	mu      sync.Mutex
	streams map[chan struct{}]string // → device
	done    chan struct{}
	closed  bool
}

func newHub() *hub {
	return &hub{streams: map[chan struct{}]string{}, done: make(chan struct{})}
}

// open begins to listen; the channel gets one value for any number of ripples.
func (h *hub) open(dev string) (news chan struct{}, end func(), err error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	held := 0
	for _, other := range h.streams {
		if other == dev {
			held++
		}
	}
	if held >= streamsMost {
		p := problem("too-many", "This phone holds %d streams open already; close one.", held)
		p.retry = keepAlive
		return nil, nil, p
	}
	news = make(chan struct{}, 1)
	h.streams[news] = dev
	return news, func() {
		h.mu.Lock()
		delete(h.streams, news)
		h.mu.Unlock()
	}, nil
}

// ripple tells every stream but those of the device that brought the news.
func (h *hub) ripple(from string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for news, dev := range h.streams {
		if dev == from {
			continue
		}
		select {
		case news <- struct{}{}:
		default: // one is on its way already
		}
	}
}

func (h *hub) close() {
	h.mu.Lock()
	defer h.mu.Unlock()
	if !h.closed {
		h.closed = true
		close(h.done)
	}
}

// stream sends "event: ripple" for news until the token expires, the device is
// taken out, or the server stops.
func (s *Server) stream(c echo.Context) error {
	who := callerOf(c)
	news, end, err := s.hub.open(who.ID)
	if err != nil {
		return err
	}
	defer end()
	header := c.Response().Header()
	header.Set(echo.HeaderContentType, "text/event-stream")
	header.Set("Cache-Control", "no-store")
	header.Set("X-Accel-Buffering", "no")
	c.Response().WriteHeader(http.StatusOK)
	control := http.NewResponseController(c.Response())
	write := func(text string) bool {
		_ = control.SetWriteDeadline(time.Now().Add(writeTime)) // a line without deadlines still gets the text
		_, err := c.Response().Write([]byte(text))
		return err == nil && control.Flush() == nil
	}
	beat := time.NewTicker(keepAlive)
	defer beat.Stop()
	expiry := time.NewTimer(who.expires.Sub(s.cfg.Now()))
	defer expiry.Stop()
	for ok := write(": hello\n\n"); ok; {
		select {
		case <-news:
			ok = write(ripple)
		case <-beat.C:
			ok = write(": still here\n\n")
		case <-expiry.C:
			ok = false
		case <-s.hub.done:
			ok = false
		case <-c.Request().Context().Done():
			ok = false
		}
		if d, known := s.home.state().Device(who.ID); ok && (!known || !d.In()) {
			write(ripple) // it asks what is new and is shown the revocation
			ok = false
		}
	}
	return nil
}
