package server_test

import (
	"bufio"
	"context"
	"net"
	"net/http"
	"slices"
	"testing"
	"time"

	"trayside/server"
	"trayside/sync/exchange"
	"trayside/sync/roster"
)

// listen opens a phone's stream and gives its lines; the channel closes with it.
func (p *phone) listen(ctx context.Context, url string) <-chan string {
	p.s.t.Helper()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, url+"/api/v1/stream", nil)
	if err != nil {
		p.s.t.Fatal(err)
	}
	req.Header.Set("Authorization", "Bearer "+p.token)
	res, err := http.DefaultClient.Do(req)
	if err != nil {
		p.s.t.Fatal(err)
	}
	if got := res.Header.Get("Content-Type"); res.StatusCode != 200 || got != "text/event-stream" {
		p.s.t.Fatalf("stream: %d %s", res.StatusCode, got)
	}
	lines := make(chan string, 100)
	go func() {
		defer close(lines)
		defer res.Body.Close()
		for in := bufio.NewScanner(res.Body); in.Scan(); {
			lines <- in.Text()
		}
	}()
	return lines
}

// await waits for a line, or for the end if want is "".
func await(t testing.TB, lines <-chan string, want string, within time.Duration) {
	t.Helper()
	late := time.After(within)
	for {
		select {
		case line, open := <-lines:
			if !open && want == "" || open && line == want && want != "" {
				return
			}
			if !open {
				t.Fatalf("the stream ended before %q", want)
			}
		case <-late:
			t.Fatalf("nothing of %q within %v", want, within)
		}
	}
}

// gather takes the lines that come until nothing came for a while.
func gather(lines <-chan string, quiet time.Duration) (heard []string) {
	for {
		select {
		case line := <-lines:
			heard = append(heard, line)
		case <-time.After(quiet):
			return heard
		}
	}
}

func TestAPushRipplesToTheOthersWithinASecond(t *testing.T) {
	s := newSite(t)
	a, b := s.member("a", roster.Keeper), s.member("b", roster.Viewer)
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	others, own := b.listen(ctx, s.url), a.listen(ctx, s.url)
	await(t, others, ": hello", time.Second)
	await(t, own, ": hello", time.Second)
	texts := a.write(1, "look")
	a.push(texts...)
	await(t, others, "event: ripple", time.Second)
	a.push(texts...) // all dup: no news
	if heard := gather(own, 100*time.Millisecond); slices.Contains(heard, "event: ripple") {
		t.Errorf("the phone that pushed heard %q", heard)
	}
	if heard := gather(others, 100*time.Millisecond); slices.Contains(heard, "event: ripple") {
		t.Errorf("a repeat rippled: %q", heard)
	}
	a.s.post(exchange.PathExchange, a.token, exchange.Request{
		Ops: []string{}, Roster: []string{a.sign(roster.Op{Kind: roster.Revoke, To: b.dev(), Why: roster.Removed})},
	}).into(t, &exchange.Answer{})
	await(t, others, "event: ripple", time.Second)
	await(t, others, "", time.Second) // a device that is out hears it once, then no more
}

func TestAPhoneHoldsNoMoreStreamsOpenThanItNeeds(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	ctx, hangUp := context.WithCancel(t.Context())
	for range 8 {
		await(t, p.listen(ctx, s.url), ": hello", time.Second)
	}
	s.get("/api/v1/stream", p.token).refused(t, http.StatusTooManyRequests, "too-many")
	await(t, s.member("another phone", roster.Feeder).listen(t.Context(), s.url), ": hello", time.Second)
	hangUp()
	for deadline := time.Now().Add(5 * time.Second); p.streamStatus() != http.StatusOK; time.Sleep(20 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatal("refused although all were hung up")
		}
	}
}

// streamStatus opens a stream and closes it again.
func (p *phone) streamStatus() int {
	p.s.t.Helper()
	req, err := http.NewRequestWithContext(p.s.t.Context(), http.MethodGet, p.s.url+"/api/v1/stream", nil)
	if err != nil {
		p.s.t.Fatal(err)
	}
	req.Header.Set("Authorization", "Bearer "+p.token)
	res, err := http.DefaultClient.Do(req)
	if err != nil {
		p.s.t.Fatal(err)
	}
	res.Body.Close()
	return res.StatusCode
}

func TestAPhoneLetInOrTurnedAwayRipplesToTheOthers(t *testing.T) {
	s := newSite(t)
	keeper, other := s.member("keeper", roster.Keeper), s.member("other", roster.Feeder)
	lines := other.listen(t.Context(), s.url)
	await(t, lines, ": hello", time.Second)
	waits := func(name string) (guest *phone, invite string) {
		t.Helper()
		var v server.Invite
		s.post("/api/v1/invites", keeper.token, m{"role": "feeder", "member": "member/wren"}).into(t, &v)
		guest = s.phone(name)
		guest.join(v.Code).into(t, &joined{})
		return guest, "/api/v1/invites/" + v.ID
	}
	guest, invite := waits("let in")
	op := roster.Op{Kind: roster.Grant, To: guest.dev(), Key: roster.KeyText(guest.pub), Member: "member/wren", Role: roster.Feeder, Name: guest.name}
	wantStatus(t, s.post(invite+"/grant", keeper.token, m{"roster": keeper.sign(op)}), http.StatusNoContent)
	await(t, lines, "event: ripple", time.Second)

	_, invite = waits("turned away")
	wantStatus(t, s.do(http.MethodDelete, invite, keeper.token, nil), http.StatusNoContent)
	await(t, lines, "event: ripple", time.Second)
}

func TestStoppingEndsStreamsThenTheServer(t *testing.T) {
	s := newSite(t)
	p := s.member("p", roster.Keeper)
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- s.Serve(ctx, ln) }()
	lines := p.listen(t.Context(), "http://"+ln.Addr().String())
	await(t, lines, ": hello", time.Second)
	stop()
	await(t, lines, "", 2*time.Second)
	select {
	case err := <-done:
		if err != nil {
			t.Errorf("stopped with %v", err)
		}
	case <-time.After(3 * time.Second):
		t.Error("the server did not stop")
	}
}
