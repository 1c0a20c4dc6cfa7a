package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"math/rand/v2"
	"net/url"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"trayside/server"
	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// killRounds is how often the server is killed while phones push.
const killRounds = 20

// TestKilledWhilePhonesPush kills the real program with SIGKILL at a random
// moment while three phones push, starts it again, and repeats: whatever was
// acknowledged is there afterwards, once, and the sums fit what is there.
func TestKilledWhilePhonesPush(t *testing.T) {
	dir, binary := t.TempDir(), filepath.Join(t.TempDir(), "trayside.exe")
	if out, err := exec.CommandContext(t.Context(), "go", "build", "-o", binary, ".").CombinedOutput(); err != nil {
		t.Fatalf("build: %v\n%s", err, out)
	}
	const seed = 20
	moment := rand.New(rand.NewPCG(seed, 0))
	var phones []*console
	acked := map[oplog.ID]bool{}
	torn := 0 // pushes whose answer was lost
	for round := range killRounds {
		p := launch(t, binary, dir)
		if phones == nil {
			phones = append(phones, joinAs(t, p.Address, p.Household, codeIn(t, p.Link)))
			for range 2 {
				var out bytes.Buffer
				if err := run(t.Context(), []string{"invite", "--data", dir, "--json"}, &out, io.Discard); err != nil {
					t.Fatal(err)
				}
				var v server.Invite
				if err := json.Unmarshal(out.Bytes(), &v); err != nil {
					t.Fatal(err)
				}
				phones = append(phones, joinAs(t, p.Address, p.Household, v.Code))
			}
		}
		for _, phone := range phones {
			phone.base, phone.token = p.Address, ""
			if err := phone.login(t.Context()); err != nil {
				t.Fatalf("round %d: %v", round, err)
			}
		}
		check(t, round, phones[0], acked)
		ctx, cancel := context.WithCancel(t.Context())
		var mu sync.Mutex
		var wg sync.WaitGroup
		for _, phone := range phones {
			wg.Go(func() {
				ids, lost := pushUntilCut(t, ctx, phone)
				mu.Lock()
				defer mu.Unlock()
				for _, id := range ids {
					acked[id] = true
				}
				torn += lost
			})
		}
		time.Sleep(time.Duration(20+moment.IntN(200)) * time.Millisecond)
		p.kill()
		wg.Wait()
		cancel()
	}
	p := launch(t, binary, dir)
	phones[0].base, phones[0].token = p.Address, ""
	if err := phones[0].login(t.Context()); err != nil {
		t.Fatal(err)
	}
	check(t, killRounds, phones[0], acked)
	if len(acked) < killRounds*10 || torn < killRounds/2 {
		t.Errorf("only %d entries acknowledged and %d pushes cut: the kills did not come during pushes", len(acked), torn)
	}
	t.Logf("%d entries acknowledged, %d pushes cut", len(acked), torn)
}

// process is the real program.
type process struct {
	announcement
	kill func()
}

func launch(t *testing.T, binary, dir string) process {
	t.Helper()
	cmd := exec.Command(binary, "serve", "--data", dir, "--listen", "127.0.0.1:0", "--json")
	var log bytes.Buffer
	cmd.Stderr = &log
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	var p process
	once := sync.OnceFunc(func() {
		_ = cmd.Process.Kill() // it may have ended by itself; Wait tells
		_ = cmd.Wait()         // killed is how it shall end
	})
	p.kill = once
	t.Cleanup(once)
	in := bufio.NewScanner(out)
	if !in.Scan() {
		once()
		t.Fatalf("the program told nothing:\n%s", log.String())
	}
	if err := json.Unmarshal(in.Bytes(), &p.announcement); err != nil {
		t.Fatalf("%v in %s", err, in.Text())
	}
	return p
}

// pushUntilCut pushes small batches until the server does not answer, and gives
// the ids that were acknowledged and how many pushes stayed without an answer.
func pushUntilCut(t *testing.T, ctx context.Context, phone *console) (ids []oplog.ID, lost int) {
	for {
		var a exchange.Answer
		if err := phone.post(ctx, exchange.PathExchange, exchange.Request{Ops: logged(t, 5)}, &a); err != nil {
			var cut *url.Error
			if errors.As(err, &cut) || errors.Is(err, io.ErrUnexpectedEOF) {
				return ids, 1
			}
			return ids, 0 // a fast disk gets through the phone's allowance before the kill
		}
		for _, r := range a.Results {
			if r.Code != exchange.Stored {
				t.Errorf("a new entry was answered with %s", r.Code)
			}
			ids = append(ids, r.ID)
		}
	}
}

// check pulls the whole log and holds it against what was acknowledged.
func check(t *testing.T, round int, phone *console, acked map[oplog.ID]bool) {
	t.Helper()
	seen := map[oplog.ID]bool{}
	var sum digest.Sum
	for req := (exchange.Request{Ops: []string{}}); ; {
		var a exchange.Answer
		if err := phone.post(t.Context(), exchange.PathExchange, req, &a); err != nil {
			t.Fatalf("after %d kills: %v", round, err)
		}
		for _, text := range a.Ops {
			id := oplog.Hash([]byte(text))
			if seen[id] {
				t.Fatalf("after %d kills: entry %v is there twice", round, id)
			}
			seen[id] = true
			sum = sum.Add(id)
		}
		if req.After = a.Next; a.More {
			continue
		}
		if sum != a.Root {
			t.Fatalf("after %d kills: the sums say %v, the entries %v", round, a.Root, sum)
		}
		break
	}
	for id := range acked {
		if !seen[id] {
			t.Fatalf("after %d kills: acknowledged entry %v is gone", round, id)
		}
	}
}
