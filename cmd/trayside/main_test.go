package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"trayside/server"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

// program is a run of the whole program.
type program struct {
	announcement
	stop func() error
	log  *bytes.Buffer // stderr; read it after stop
}

// start runs a command that serves, in this process, until stop or the test's end.
func start(t *testing.T, args ...string) *program {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	out, w := io.Pipe()
	p := &program{log: &bytes.Buffer{}}
	done := make(chan error, 1)
	go func() {
		err := run(ctx, append(args, "--listen", "127.0.0.1:0", "--json"), w, p.log)
		w.CloseWithError(io.EOF)
		done <- err
	}()
	stopped := false
	p.stop = func() error {
		if stopped {
			return nil
		}
		stopped = true
		cancel()
		select {
		case err := <-done:
			return err
		case <-time.After(20 * time.Second):
			return errors.New("did not stop")
		}
	}
	t.Cleanup(func() {
		if err := p.stop(); err != nil {
			t.Errorf("stop: %v", err)
		}
	})
	in := bufio.NewScanner(out)
	if !in.Scan() {
		t.Fatalf("no line on stdout: %v\n%s", p.stop(), p.log)
	}
	if err := json.Unmarshal(in.Bytes(), &p.announcement); err != nil {
		t.Fatalf("%v in %s", err, in.Text())
	}
	go io.Copy(io.Discard, out)
	return p
}

// joinAs joins with a code, as a new phone that speaks like the console does.
func joinAs(t *testing.T, base, home, code string) *console {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	pub, err := p256.PublicKey(key)
	if err != nil {
		t.Fatal(err)
	}
	c := &console{base: base, home: home, key: key}
	var a struct{ State string }
	err = c.post(t.Context(), "/api/v1/join", map[string]any{"code": code, "key": roster.KeyText(pub), "device": "test phone"}, &a)
	if err != nil || a.State != "granted" {
		t.Fatalf("join: %q, %v", a.State, err)
	}
	if err := c.login(t.Context()); err != nil {
		t.Fatal(err)
	}
	return c
}

func codeIn(t *testing.T, link string) string {
	t.Helper()
	_, code, there := strings.Cut(link, "/join#")
	if !there {
		t.Fatalf("link %q has no code", link)
	}
	return code
}

// logged makes n operations that nobody made before.
func logged(t testing.TB, n int) []string {
	t.Helper()
	texts := make([]string, n)
	for i := range texts {
		op, err := oplog.Seal(oplog.Op{V: 1, T: time.Now().UnixMilli(), Dev: "d", Ent: "look/" + rand.Text()})
		if err != nil {
			t.Fatal(err)
		}
		texts[i] = string(op.Bytes)
	}
	return texts
}

func TestAHouseholdGoesOnAfterARestart(t *testing.T) {
	dir := t.TempDir()
	p := start(t, "serve", "--data", dir)
	if !strings.HasPrefix(p.Address, "http://127.0.0.1:") || p.PID != os.Getpid() || len(p.Household) != 32 {
		t.Errorf("told %+v", p.announcement)
	}
	phone := joinAs(t, p.Address, p.Household, codeIn(t, p.Link))
	texts := logged(t, 3)
	var a exchange.Answer
	if err := phone.post(t.Context(), exchange.PathExchange, exchange.Request{Ops: texts}, &a); err != nil {
		t.Fatal(err)
	}
	if err := p.stop(); err != nil {
		t.Errorf("stop: %v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, servingName)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("after stopping, %s is still there: %v", servingName, err)
	}
	again := start(t, "serve", "--data", dir)
	if again.Household != p.Household || again.Link != "" {
		t.Errorf("told %+v; want the same household and no link, since it has a keeper", again.announcement)
	}
	phone.base, phone.token = again.Address, ""
	if err := phone.login(t.Context()); err != nil {
		t.Fatal(err)
	}
	var b exchange.Answer
	if err := phone.post(t.Context(), exchange.PathExchange, exchange.Request{Ops: []string{}, After: a.Next}, &b); err != nil {
		t.Fatal(err)
	}
	if b.Root != a.Root || b.Next != a.Next || len(b.Ops) != 0 {
		t.Errorf("root %v, next %v, %d operations; want %v, %v and none", b.Root, b.Next, len(b.Ops), a.Root, a.Next)
	}
}

func TestInviteWorksWhetherAServerRunsOrNot(t *testing.T) {
	dir := t.TempDir()
	invite := func(args ...string) (v server.Invite) {
		t.Helper()
		var out bytes.Buffer
		if err := run(t.Context(), append([]string{"invite", "--data", dir, "--json"}, args...), &out, io.Discard); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(out.Bytes(), &v); err != nil {
			t.Fatal(err)
		}
		return v
	}
	p := start(t, "serve", "--data", dir)
	v := invite("--role", "viewer")
	if v.Link != p.Address+"/join#"+v.Code {
		t.Errorf("link %s, want one to %s", v.Link, p.Address)
	}
	joinAs(t, p.Address, p.Household, v.Code)
	if err := p.stop(); err != nil {
		t.Fatal(err)
	}
	stopped := invite("--base", "https://bins.example.org/")
	if stopped.Link != "https://bins.example.org/join#"+stopped.Code {
		t.Errorf("link %s", stopped.Link)
	}
	again := start(t, "serve", "--data", dir)
	joinAs(t, again.Address, again.Household, stopped.Code)
}

func TestTheLogIsReadWhetherAServerRunsOrNot(t *testing.T) {
	dir := t.TempDir()
	p := start(t, "serve", "--data", dir)
	phone := joinAs(t, p.Address, p.Household, codeIn(t, p.Link))
	want := map[string]bool{}
	for range 2 { // more than one answer of the server holds
		texts := logged(t, 400)
		for _, text := range texts {
			want[text] = true
		}
		if err := phone.post(t.Context(), exchange.PathExchange, exchange.Request{Ops: texts}, &exchange.Answer{}); err != nil {
			t.Fatal(err)
		}
	}
	check := func(when string) {
		t.Helper()
		ops, err := readLog(t.Context(), dir)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[oplog.ID]bool{}
		for _, op := range ops {
			if !want[string(op.Bytes)] || seen[op.ID] {
				t.Fatalf("%s: read an operation that is not there, or one twice", when)
			}
			seen[op.ID] = true
		}
		if len(seen) != len(want) {
			t.Errorf("%s: read %d operations, want %d", when, len(seen), len(want))
		}
	}
	check("with a server running")
	if err := p.stop(); err != nil {
		t.Fatal(err)
	}
	check("with none")
}

func TestALogTooLongForOneBurstOfRequestsIsReadAllTheSame(t *testing.T) {
	dir := t.TempDir()
	p := start(t, "serve", "--data", dir)
	c, err := dial(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	for n := range 62 { // the server answers a device 60 times at once
		if err := c.post(t.Context(), exchange.PathExchange, exchange.Request{Ops: []string{}}, &exchange.Answer{}); err != nil {
			t.Fatalf("request %d to %s: %v", n, p.Address, err)
		}
	}
}

func TestTheDemoHasSomethingToShowAndIsKeptWhenAsked(t *testing.T) {
	dir := t.TempDir()
	pull := func(p *program) exchange.Answer {
		t.Helper()
		phone := joinAs(t, p.Address, p.Household, codeIn(t, p.Link))
		var a exchange.Answer
		if err := phone.post(t.Context(), exchange.PathExchange, exchange.Request{Ops: []string{}}, &a); err != nil {
			t.Fatal(err)
		}
		return a
	}
	p := start(t, "demo", "--data", dir)
	a := pull(p)
	if codeIn(t, p.Link) != "demo" || len(a.Ops) < 100 {
		t.Errorf("link %s, %d entries; want the code demo and some hundred", p.Link, len(a.Ops))
	}
	if err := p.stop(); err != nil {
		t.Fatal(err)
	}
	again := start(t, "demo", "--data", dir)
	if b := pull(again); b.Root != a.Root || again.Household != p.Household {
		t.Errorf("started again: root %v, household %s; want %v, %s", b.Root, again.Household, a.Root, p.Household)
	}
}

func TestALongDemoHasAsManyEntriesAsAskedFor(t *testing.T) {
	p := start(t, "demo", "--data", t.TempDir(), "--entries", "150")
	phone := joinAs(t, p.Address, p.Household, codeIn(t, p.Link))
	var a exchange.Answer
	if err := phone.post(t.Context(), exchange.PathExchange, exchange.Request{Ops: []string{}}, &a); err != nil {
		t.Fatal(err)
	}
	if a.Root.Count != 150 {
		t.Errorf("the log has %d entries; want 150", a.Root.Count)
	}
}

func TestATemporaryDemoLeavesNothingBehind(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	p := start(t, "demo")
	if err := p.stop(); err != nil {
		t.Fatal(err)
	}
	left, err := os.ReadDir(os.TempDir())
	if err != nil || len(left) != 0 {
		t.Errorf("left %v, %v", left, err)
	}
}

func TestWithoutJSONItTellsPeople(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	out, w := io.Pipe()
	done := make(chan error, 1)
	go func() {
		done <- run(ctx, []string{"serve", "--data", t.TempDir(), "--listen", "127.0.0.1:0", "--base", "http://192.168.1.9"}, w, io.Discard)
		w.Close()
	}()
	var told strings.Builder
	for in := bufio.NewScanner(out); in.Scan(); {
		told.WriteString(in.Text() + "\n")
		if strings.Contains(in.Text(), "▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀") { // the square code's last row
			cancel()
			break
		}
	}
	go io.Copy(io.Discard, out)
	if err := <-done; err != nil {
		t.Error(err)
	}
	cancel()
	for _, want := range []string{"answers at http://192.168.1.9\n", "http://192.168.1.9/join#", "needs https", "first keeper"} {
		if !strings.Contains(told.String(), want) {
			t.Errorf("it does not say %q:\n%s", want, told.String())
		}
	}
}

func TestWhatCannotBeDoneSaysHowToMendIt(t *testing.T) {
	busy := start(t, "serve", "--data", t.TempDir())
	used := filepath.Join(t.TempDir(), "used")
	p := start(t, "serve", "--data", used)
	orphan := t.TempDir()
	if err := os.Mkdir(filepath.Join(orphan, logName), 0o700); err != nil {
		t.Fatal(err)
	}
	own := t.TempDir()
	if err := start(t, "serve", "--data", own).stop(); err != nil {
		t.Fatal(err)
	}
	scrap := t.TempDir()
	if err := os.WriteFile(filepath.Join(scrap, consoleName), []byte("scrap"), 0o600); err != nil {
		t.Fatal(err)
	}
	empty := t.TempDir()
	tests := []struct {
		name string
		args []string
		code int
		says string
	}{
		{"the log of an empty folder", []string{"export", "--data", empty}, 1, "trayside serve makes one"},
		{"an invite to an empty folder", []string{"invite", "--data", empty}, 1, "trayside serve makes one"},
		{"nothing to do", nil, 2, "trayside serve --data DIR"},
		{"no such command", []string{"brew"}, 2, "no command \"brew\""},
		{"no folder", []string{"serve"}, 2, "say where the data is kept"},
		{"an unknown flag", []string{"serve", "--dir", "x"}, 2, "-dir"},
		{"a bare word", []string{"serve", "x"}, 2, "is not a flag"},
		{"a base with a path", []string{"serve", "--data", t.TempDir(), "--base", "https://a/b"}, 2, "scheme and name alone"},
		{"a proxy that is no network", []string{"serve", "--data", t.TempDir(), "--proxy", "home"}, 2, "want a network"},
		{"a taken address", []string{"serve", "--data", t.TempDir(), "--listen", strings.TrimPrefix(busy.Address, "http://")}, 1, "--listen takes another address"},
		{"a folder in use", []string{"serve", "--data", used}, 1, "stop it first"},
		{"a log without its key", []string{"serve", "--data", orphan}, 1, "put the key file"},
		{"a key that is none", []string{"serve", "--data", scrap}, 1, "put the key file"},
		{"a demo in a household's own folder", []string{"demo", "--data", own, "--listen", "127.0.0.1:0"}, 1, "lets anybody in"},
		{"an invite to nowhere", []string{"invite", "--data", filepath.Join(scrap, "none")}, 1, "trayside serve makes one"},
		{"an unknown role", []string{"invite", "--data", used, "--role", "owner"}, 2, "want keeper, feeder or viewer"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var told bytes.Buffer
			code := exitCode(run(t.Context(), tt.args, io.Discard, &told), &told)
			if code != tt.code || !strings.Contains(told.String(), tt.says) {
				t.Errorf("code %d, %s\nwant %d and %q", code, told.String(), tt.code, tt.says)
			}
		})
	}
	if made, err := os.ReadDir(empty); err != nil || len(made) != 0 {
		t.Errorf("commands that only look made %v in an empty folder, %v", made, err)
	}
	if res, err := http.Get(p.Address + "/readyz"); err != nil || res.StatusCode != 200 {
		t.Errorf("the server whose folder others wanted: %v, %v", res, err)
	}
}

func TestHelpAndVersionSucceed(t *testing.T) {
	for _, args := range [][]string{{"help"}, {"--help"}, {"version"}, {"serve", "--help"}} {
		var out bytes.Buffer
		if code := exitCode(run(t.Context(), args, &out, &out), &out); code != 0 || out.Len() == 0 {
			t.Errorf("%v: code %d, %q", args, code, out.String())
		}
	}
}
