package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/netip"
	"net/url"
	"os"
	"strings"

	"github.com/skip2/go-qrcode"

	"trayside/internal/journal"
	"trayside/server"
	"trayside/sync/roster"
)

// serveFlags are what serve and demo share.
type serveFlags struct {
	data, listen, base, proxies string
	json, verbose               bool
}

func (o *serveFlags) define(f *flag.FlagSet) {
	f.StringVar(&o.listen, "listen", "127.0.0.1:8080", "address to answer on; port 0 takes any free one")
	f.StringVar(&o.base, "base", "", "address that phones use, such as https://bins.example.org; keep it for ever")
	f.StringVar(&o.proxies, "proxy", "", "networks of proxies in front whose X-Forwarded-For is believed, such as 10.0.0.0/8; several with commas")
	f.BoolVar(&o.json, "json", false, "print one JSON line with address, link, household and pid instead of words")
	f.BoolVar(&o.verbose, "verbose", false, "log every request")
}

func runServe(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	var o serveFlags
	f := newFlags("serve", "trayside serve --data DIR [--listen ADDR] [--base URL] [--json]", stderr)
	f.StringVar(&o.data, "data", "", "folder for everything that is kept; made if missing")
	o.define(f)
	if err := parse(f, args); err != nil {
		return err
	}
	if o.data == "" {
		return usage("serve: say where the data is kept: trayside serve --data DIR")
	}
	return serve(ctx, o, server.Config{}, nil, stdout, stderr)
}

// serve runs a server until ctx ends. prepare, if any, gets the opened folder
// and the server before the first request.
func serve(ctx context.Context, o serveFlags, cfg server.Config, prepare func(*folder, *server.Server) error, stdout, stderr io.Writer) (err error) {
	log := logger(o.verbose, stderr)
	if cfg.Base, err = baseOf(o.base); err != nil {
		return err
	}
	if cfg.Proxies, err = prefixes(o.proxies); err != nil {
		return err
	}
	data, err := openFolder(o.data, log)
	if errors.Is(err, errBusy) {
		return fmt.Errorf("%w (%s); stop it first, or give this one a folder of its own", err, o.data)
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, data.close()) }()
	cfg.Photos = data.photos
	cfg.Store, cfg.Console, cfg.Log, cfg.Version, cfg.KeeperOnly = data.store, data.console, log, version(), journal.KeeperOnly
	s, err := server.New(cfg)
	if err != nil {
		return err
	}
	if prepare != nil {
		if err := prepare(data, s); err != nil {
			return err
		}
	}
	ln, err := new(net.ListenConfig).Listen(ctx, "tcp", o.listen)
	if err != nil {
		return fmt.Errorf("listen on %s: %w; is another program there? --listen takes another address", o.listen, err)
	}
	local := localAddress(ln.Addr())
	told := serving{Address: local, Household: s.Household(), PID: os.Getpid()}
	if err := data.writeServing(told); err != nil {
		return errors.Join(fmt.Errorf("tell other commands where the server is: %w", err), ln.Close())
	}
	if cfg.Base != "" {
		told.Address = cfg.Base
	}
	if err := announce(s, told, cfg.Demo != nil, o.json, stdout); err != nil {
		return errors.Join(err, ln.Close())
	}
	log.Info("serving", "listen", ln.Addr().String(), "household", s.Household())
	err = s.Serve(ctx, ln)
	log.Info("stopped")
	return err
}

// announcement is the line that --json prints. Link is empty for a household
// that has a keeper's phone.
type announcement struct {
	Address   string `json:"address"`
	Link      string `json:"link"`
	Household string `json:"household"`
	PID       int    `json:"pid"`
}

func announce(s *server.Server, told serving, demo, asJSON bool, stdout io.Writer) error {
	a := announcement{Address: told.Address, Household: told.Household, PID: told.PID}
	switch {
	case demo:
		a.Link = told.Address + "/join#demo"
	case s.Fresh():
		v, err := s.InviteByConsole(roster.Keeper, told.Address)
		if err != nil {
			return err
		}
		a.Link = v.Link
	}
	if asJSON {
		return json.NewEncoder(stdout).Encode(a)
	}
	if _, err := fmt.Fprintf(stdout, "Trayside answers at %s\n", a.Address); err != nil || a.Link == "" {
		return err
	}
	if demo {
		return printLink(stdout, "Try the invented household:", a.Link)
	}
	if !trusted(a.Address) {
		fmt.Fprint(stdout, "A phone needs https on a name that stays: put the server behind a proxy that has one, and start it with --base.\n")
	}
	return printLink(stdout, "Become the first keeper within 10 minutes (later: trayside invite):", a.Link)
}

// printLink prints a link with its QR code, dark on light in a dark terminal.
func printLink(w io.Writer, words, link string) error {
	q, err := qrcode.New(link, qrcode.Medium)
	if err != nil {
		return fmt.Errorf("draw the QR code: %w", err)
	}
	_, err = fmt.Fprintf(w, "\n%s\n%s\n\n%s\n", words, link, q.ToSmallString(false))
	return err
}

// trusted tells whether browsers let an app at this address work offline.
func trusted(address string) bool {
	u, err := url.Parse(address)
	if err != nil {
		return false
	}
	ip, err := netip.ParseAddr(u.Hostname())
	return u.Scheme == "https" || u.Hostname() == "localhost" || err == nil && ip.IsLoopback()
}

// localAddress is where this machine reaches the server.
func localAddress(a net.Addr) string {
	host, port, err := net.SplitHostPort(a.String())
	if err != nil {
		return "http://" + a.String()
	}
	if ip, err := netip.ParseAddr(host); err == nil && ip.IsUnspecified() {
		host = "localhost"
	}
	return "http://" + net.JoinHostPort(host, port)
}

// baseOf reads --base: scheme and host, nothing behind them.
func baseOf(text string) (string, error) {
	if text == "" {
		return "", nil
	}
	u, err := url.Parse(strings.TrimSuffix(text, "/"))
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.Path != "" || u.RawQuery != "" || u.Fragment != "" || u.User != nil {
		return "", usage("--base %q: want scheme and name alone, such as https://bins.example.org", text)
	}
	return u.Scheme + "://" + u.Host, nil
}

func prefixes(text string) (list []netip.Prefix, err error) {
	for part := range strings.SplitSeq(text, ",") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		p, err := netip.ParsePrefix(part)
		if err != nil {
			return nil, usage("--proxy %q: want a network such as 10.0.0.0/8 or 127.0.0.1/32", part)
		}
		list = append(list, p)
	}
	return list, nil
}

func logger(verbose bool, stderr io.Writer) *slog.Logger {
	level := slog.LevelInfo
	if verbose {
		level = slog.LevelDebug
	}
	return slog.New(slog.NewTextHandler(stderr, &slog.HandlerOptions{Level: level}))
}
