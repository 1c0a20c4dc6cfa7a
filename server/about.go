package server

import (
	_ "embed"
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"

	"github.com/labstack/echo/v4"
)

// openapi describes the API in OpenAPI 3.1.
//
//go:embed openapi.json
var openapi []byte

func (s *Server) describe(c echo.Context) error {
	c.Response().Header().Set("Cache-Control", "no-cache")
	return c.Blob(http.StatusOK, "application/json; charset=utf-8", openapi)
}

type aboutAnswer struct {
	Household string `json:"household"`
	Name      string `json:"name"`
	Demo      bool   `json:"demo"`
	Version   string `json:"version"`
}

func (s *Server) about(c echo.Context) error {
	return answer(c, http.StatusOK, aboutAnswer{s.home.id.String(), s.Name(), s.cfg.Demo != nil, s.cfg.Version})
}

// alive says that the process answers.
func (s *Server) alive(c echo.Context) error { return c.String(http.StatusOK, "alive\n") }

// ready says whether operations can be taken in; why not stands in the log.
func (s *Server) ready(c echo.Context) error {
	if err := s.cfg.Store.Ready(); err != nil {
		s.cfg.Log.Warn("not ready", "error", err)
		return c.String(http.StatusServiceUnavailable, "not ready; the log says why\n")
	}
	return c.String(http.StatusOK, "ready\n")
}

// readJSON reads a request's body, which must be one JSON value.
func readJSON(c echo.Context, into any) error {
	media, _, err := mime.ParseMediaType(c.Request().Header.Get(echo.HeaderContentType))
	if err != nil || media != "application/json" {
		return problem("unsupported-media", "Send the body as application/json.")
	}
	body, err := io.ReadAll(c.Request().Body)
	if err != nil {
		var web *echo.HTTPError
		var large *http.MaxBytesError
		if errors.As(err, &web) || errors.As(err, &large) {
			return err
		}
		return problem("bad-request", "The body could not be read to its end.")
	}
	if err := json.Unmarshal(body, into); err != nil {
		return problem("not-json", "The body is not the JSON that is wanted here: %v.", err)
	}
	return nil
}

// answer writes JSON that nobody may keep.
func answer(c echo.Context, status int, v any) error {
	c.Response().Header().Set("Cache-Control", "no-store")
	return c.JSON(status, v)
}

// plainJSON leaves < and > as they are: operations travel as JSON strings, and
// escapes would make them longer.
type plainJSON struct{ echo.DefaultJSONSerializer }

// Serialize implements echo.JSONSerializer.
func (plainJSON) Serialize(c echo.Context, v any, _ string) error {
	enc := json.NewEncoder(c.Response())
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}
