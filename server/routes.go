package server

import (
	"io"
	"net"
	"net/http"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"

	"trayside/sync/exchange"
)

// access says who may use a route.
type access int

const (
	public access = iota // anybody, at the pace of strangers
	probe                // anybody, at any pace
	device               // a device of the household
	writer               // a device that may write: no viewer's
	keeper               // a keeper's device
)

type route struct {
	method, path string
	access       access
	handler      echo.HandlerFunc
}

// routes is everything that can be asked, besides the app itself, which answers
// every other GET. openapi.json describes each; a test compares the two.
func (s *Server) routes() []route {
	const get, post = http.MethodGet, http.MethodPost
	return []route{
		{get, "/livez", probe, s.alive},
		{get, "/readyz", probe, s.ready},
		{get, "/api/v1/openapi.json", probe, s.describe},
		{get, "/api/v1/about", public, s.about},
		{post, "/api/v1/join", public, s.join},
		{get, "/api/v1/join/:join", public, s.joinState},
		{post, "/api/v1/nonce", public, s.nonce},
		{post, "/api/v1/token", public, s.token},
		{post, "/api/v1/invites", keeper, s.invite},
		{get, "/api/v1/invites", keeper, s.waiting},
		{post, "/api/v1/invites/:id/grant", keeper, s.grant},
		{http.MethodDelete, "/api/v1/invites/:id", keeper, s.decline},
		{post, exchange.PathExchange, device, s.exchange},
		{post, exchange.PathReconcile, device, s.reconcile},
		{get, "/api/v1/stream", device, s.stream},
		{post, "/api/v1/print", device, s.print},
		{get, "/api/v1/photos", device, s.listPhotos},
		{get, "/api/v1/photos/:hash", device, s.photo},
		{http.MethodPut, "/api/v1/photos/:hash", writer, s.putPhoto},
		{http.MethodDelete, "/api/v1/photos/:hash", writer, s.deletePhoto},
	}
}

func (s *Server) router() *echo.Echo {
	e := echo.New()
	e.HTTPErrorHandler = s.answerError
	e.JSONSerializer = plainJSON{}
	e.IPExtractor = s.extractIP()
	e.Use(s.logged, headers, middleware.RecoverWithConfig(middleware.RecoverConfig{
		LogErrorFunc: func(c echo.Context, err error, stack []byte) error {
			s.cfg.Log.Error("panic", "route", c.Path(), "error", err, "stack", string(stack))
			return err
		},
	}))
	// The order matters: a limit that stands only before decompression lets
	// 200 kB of zeros become 200 MB.
	body := []echo.MiddlewareFunc{wireLimit, middleware.Decompress(), middleware.BodyLimit("2MiB")}
	for _, r := range s.routes() {
		e.Add(r.method, r.path, r.handler, append([]echo.MiddlewareFunc{s.admit(r.access)}, body...)...)
	}
	e.GET("/*", s.app.serve)
	e.HEAD("/*", s.app.serve)
	return e
}

// extractIP believes forwarded addresses only from the configured proxies.
func (s *Server) extractIP() echo.IPExtractor {
	if len(s.cfg.Proxies) == 0 {
		return echo.ExtractIPDirect()
	}
	trust := []echo.TrustOption{echo.TrustLoopback(false), echo.TrustLinkLocal(false), echo.TrustPrivateNet(false)}
	for _, p := range s.cfg.Proxies {
		_, ipNet, err := net.ParseCIDR(p.Masked().String())
		if err == nil {
			trust = append(trust, echo.TrustIPRange(ipNet))
		}
	}
	return echo.ExtractIPFromXFFHeader(trust...)
}

// policy is what the app's pages may do: scripts and engine from here alone,
// and script addresses only through its own two Trusted Types policies.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; " +
	"font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'; " +
	"require-trusted-types-for 'script'; trusted-types app lit-html"

// headers go with every answer, refusals included.
func headers(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		h := c.Response().Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Permissions-Policy", "camera=(self), bluetooth=(self)")
		// The error, if the connection knows no deadlines, changes nothing here.
		_ = http.NewResponseController(c.Response()).SetWriteDeadline(time.Now().Add(answerTime))
		return next(c)
	}
}

// logged writes one line per request: the route, never the address itself,
// which may hold a code, and nobody's name or address.
func (s *Server) logged(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		start := s.cfg.Now()
		err := next(c)
		if err != nil {
			c.Error(err)
		}
		s.cfg.Log.Debug("request", "method", c.Request().Method, "route", c.Path(), "status", c.Response().Status,
			"ms", s.cfg.Now().Sub(start).Milliseconds(), "bytes", c.Response().Size)
		return nil
	}
}

// drained is how much of a body that is too large is read and thrown away: a
// phone that is cut off while it sends sees a broken line, not the refusal.
const drained = 16 << 20

// wireLimit bounds the body as it is sent.
func wireLimit(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		r := c.Request()
		sent := r.Body
		var err error = &http.MaxBytesError{Limit: exchange.MaxWireBytes}
		if r.ContentLength <= exchange.MaxWireBytes {
			r.Body = http.MaxBytesReader(c.Response(), sent, exchange.MaxWireBytes)
			err = next(c)
		}
		if err == nil {
			return nil
		}
		if p, _ := problemOf(err); p.Status == http.StatusRequestEntityTooLarge {
			_, _ = io.CopyN(io.Discard, sent, drained) // the refusal stands, whatever comes
		}
		return err
	}
}
