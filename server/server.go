// Package server is a household's meeting point on HTTP: phones join by invite,
// exchange what they lack, and hear that there is news; browsers get the app.
//
// New makes a Server over a Store, Serve runs it until its context ends.
// routes.go lists what can be asked, errors.go every way it can be refused.
// What an operation means is not known here, except which kinds only a keeper
// may write (Config.KeeperOnly).
package server

import (
	"context"
	"crypto/ecdsa"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"time"

	"github.com/labstack/echo/v4"

	"trayside/pwa"
	"trayside/server/store"
)

// Config is what a Server is made from. Store and Console are needed, the rest
// has a default.
type Config struct {
	Store      Store
	Console    *ecdsa.PrivateKey      // P-256; founds a fresh household and signs its invites
	Name       string                 // of a household founded now; "Trayside"
	Base       string                 // scheme://host[:port] that links name; the request's own by default
	Demo       *Demo                  // nil unless anybody may join with the code "demo"
	Version    string                 // shown by about
	App        fs.FS                  // the built phone app; the embedded one by default
	Photos     Photos                 // where pictures are kept; in memory by default, forgotten at the end
	KeeperOnly func(kind string) bool // kinds that a feeder may not write; none by default
	Proxies    []netip.Prefix         // whose X-Forwarded-For is believed; none by default
	Log        *slog.Logger           // silent by default
	Now        func() time.Time       // time.Now by default
}

// Demo makes a server that anybody may try.
type Demo struct {
	Members []string // whom those who join become, in turn; somebody new if empty
}

// Server answers for one household. It is safe for concurrent use.
type Server struct {
	cfg    Config
	home   *household
	album  *album
	tokens *tokens
	limits *limits
	hub    *hub
	app    *app
	echo   *echo.Echo
}

// How long the parts of a request may take. There is no limit on writing as a
// whole, because a stream goes on for ever: every write has a deadline of its own.
const (
	headerTime = 5 * time.Second
	readTime   = 30 * time.Second
	idleTime   = 120 * time.Second
	answerTime = 2 * time.Minute // writing one answer that is no stream
	stopTime   = 10 * time.Second
	maxHeaders = 16 << 10
)

// New opens the household that the store holds, or founds one.
func New(cfg Config) (*Server, error) {
	if cfg.Store == nil || cfg.Console == nil {
		return nil, errors.New("server: Config needs a Store and a Console key")
	}
	if cfg.App == nil {
		cfg.App = pwa.Files()
	}
	if cfg.KeeperOnly == nil {
		cfg.KeeperOnly = func(string) bool { return false }
	}
	if cfg.Photos == nil {
		cfg.Photos = store.NewPhotoMemory()
	}
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	if cfg.Name == "" {
		cfg.Name = "Trayside"
	}
	home, err := openHousehold(cfg)
	if err != nil {
		return nil, err
	}
	app, err := newApp(cfg.App)
	if err != nil {
		return nil, fmt.Errorf("server: read the phone app: %w", err)
	}
	s := &Server{
		cfg: cfg, home: home, app: app, hub: newHub(), album: &album{home: home.id, photos: cfg.Photos},
		tokens: newTokens(home.id.String(), cfg.Now), limits: newLimits(cfg.Now),
	}
	s.echo = s.router()
	return s, nil
}

// Handler answers requests; Serve uses it, and tests may.
func (s *Server) Handler() http.Handler { return s.echo }

// Serve answers on the listener until ctx ends, then lets streams end, waits
// for requests under way and returns. The store is left open.
func (s *Server) Serve(ctx context.Context, ln net.Listener) error {
	web := &http.Server{
		Handler:           s.echo,
		ReadHeaderTimeout: headerTime, ReadTimeout: readTime, IdleTimeout: idleTime,
		MaxHeaderBytes: maxHeaders,
		ErrorLog:       slog.NewLogLogger(s.cfg.Log.Handler(), slog.LevelWarn),
	}
	failed := make(chan error, 1)
	go func() { failed <- web.Serve(ln) }()
	select {
	case err := <-failed:
		return fmt.Errorf("server: %w", err)
	case <-ctx.Done():
	}
	s.hub.close()
	stop, cancel := context.WithTimeout(context.Background(), stopTime)
	defer cancel()
	err := web.Shutdown(stop)
	if err != nil {
		web.Close()
		err = fmt.Errorf("server: requests still ran after %v and were cut off: %w", stopTime, err)
	}
	<-failed
	return err
}

// Household is the household's id, 32 hexadecimal digits.
func (s *Server) Household() string { return s.home.id.String() }

// Name is the name that the household was founded with.
func (s *Server) Name() string { return s.home.state().Name() }

// Fresh tells whether no keeper's phone has joined yet.
func (s *Server) Fresh() bool { return s.home.fresh() }
