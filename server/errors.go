package server

import (
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"time"

	"github.com/labstack/echo/v4"

	"trayside/server/store"
	"trayside/sync/exchange"
)

// Problem is the body of every refusal (RFC 9457, application/problem+json).
// Code is stable and what programs branch on; Detail is a sentence for people.
type Problem struct {
	Title  string   `json:"title"`
	Status int      `json:"status"`
	Code   string   `json:"code"`
	Detail string   `json:"detail"`
	Why    string   `json:"why,omitempty"`    // device-revoked: lost, removed or left
	Roster []string `json:"roster,omitempty"` // device-revoked: the signed texts that prove it

	Letters string `json:"letters,omitempty"` // letters: the first that cannot be printed

	retry time.Duration // too-many: when to come again
}

func (p *Problem) Error() string { return p.Code + ": " + p.Detail }

// The codes. This is the only table of code and status.
var statusOf = map[string]int{
	"not-json":          http.StatusBadRequest,
	"bad-request":       http.StatusBadRequest,
	"no-token":          http.StatusUnauthorized,
	"bad-token":         http.StatusUnauthorized,
	"bad-signature":     http.StatusUnauthorized,
	"unknown-device":    http.StatusUnauthorized,
	"device-revoked":    http.StatusForbidden,
	"role":              http.StatusForbidden,
	"not-found":         http.StatusNotFound,
	"invite-unknown":    http.StatusNotFound,
	"method":            http.StatusMethodNotAllowed,
	"invite-used":       http.StatusConflict,
	"not-waiting":       http.StatusConflict,
	"invite-expired":    http.StatusGone,
	"join-declined":     http.StatusGone,
	"too-large":         http.StatusRequestEntityTooLarge,
	"unsupported-media": http.StatusUnsupportedMediaType,
	"bad-grant":         http.StatusUnprocessableEntity,
	"letters":           http.StatusUnprocessableEntity,
	"unprintable":       http.StatusUnprocessableEntity,
	"photo-hash":        http.StatusUnprocessableEntity,
	"photo-private":     http.StatusUnprocessableEntity,
	"too-many":          http.StatusTooManyRequests,
	"internal":          http.StatusInternalServerError,
	"stopping":          http.StatusServiceUnavailable,
	"no-space":          http.StatusInsufficientStorage,
	"photo-quota":       http.StatusInsufficientStorage,
}

// problem makes a refusal. Code must be in the table.
func problem(code, detail string, args ...any) *Problem {
	status, there := statusOf[code]
	if !there {
		panic("server: no status for problem " + code)
	}
	return &Problem{Title: http.StatusText(status), Status: status, Code: code, Detail: fmt.Sprintf(detail, args...)}
}

// problemOf makes a refusal of any error. What it does not know is an accident:
// the words go to the log and not out.
func problemOf(err error) (p *Problem, accident bool) {
	var large *http.MaxBytesError
	var many *exchange.TooMany
	var query *exchange.BadQuery
	var web *echo.HTTPError
	switch {
	case errors.As(err, &p):
		return p, false
	case errors.As(err, &large):
		return problem("too-large", "The body is larger than %d bytes; send less at a time.", large.Limit), false
	case errors.Is(err, gzip.ErrHeader), errors.Is(err, gzip.ErrChecksum), errors.Is(err, io.ErrUnexpectedEOF):
		return problem("bad-request", "The body is not the gzip that its header announces."), false
	case errors.As(err, &many):
		return problem("too-large", "%d %s in one request; send at most %d.", many.Got, many.What, many.Most), false
	case errors.As(err, &query):
		return problem("bad-request", "The query cannot be answered: %s.", query.Detail), false
	case errors.Is(err, store.ErrFull):
		return problem("no-space", "The server's disk is nearly full. Nothing is lost: what waits on the phone stays there. Make room on the server."), true
	case errors.Is(err, store.ErrClosed):
		return problem("stopping", "The server is stopping; try again in a moment."), false
	case errors.As(err, &web):
		return problemOfStatus(web.Code), false
	}
	return problem("internal", "Something went wrong on the server; its log says what. Nothing that the phone holds is lost."), true
}

// problemOfStatus words what the router and its middleware refuse.
func problemOfStatus(status int) *Problem {
	switch status {
	case http.StatusNotFound:
		return problem("not-found", "There is nothing at this address.")
	case http.StatusMethodNotAllowed:
		return problem("method", "This address does not take that method; /api/v1/openapi.json lists what does.")
	case http.StatusRequestEntityTooLarge:
		return problem("too-large", "The body is larger than %d bytes after decompression; send less at a time.", exchange.MaxBodyBytes)
	}
	return problem("bad-request", "The server could not read this request.")
}

// answerError is echo's error handler: the only place that writes a refusal.
func (s *Server) answerError(err error, c echo.Context) {
	p, accident := problemOf(err)
	if accident {
		s.cfg.Log.Error("request failed", "method", c.Request().Method, "route", c.Path(), "code", p.Code, "error", err)
	}
	if c.Response().Committed {
		return
	}
	header := c.Response().Header()
	if p.Status == http.StatusUnauthorized {
		header.Set("WWW-Authenticate", `Bearer error="invalid_token"`)
	}
	if p.retry > 0 {
		header.Set("Retry-After", strconv.Itoa(int((p.retry+time.Second-1)/time.Second)))
	}
	header.Set("Cache-Control", "no-store")
	header.Set(echo.HeaderContentType, "application/problem+json; charset=utf-8")
	c.Response().WriteHeader(p.Status)
	if c.Request().Method == http.MethodHead {
		return
	}
	if err := c.Echo().JSONSerializer.Serialize(c, p, ""); err != nil {
		s.cfg.Log.Debug("answer not taken", "error", err)
	}
}
