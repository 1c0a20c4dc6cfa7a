package server

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"
	"time"

	"github.com/labstack/echo/v4"
)

// How the app's files are cached. Files in assets/ carry a hash of their content
// in their name and never change; all others are asked about every time and
// usually answered with 304. Names without a file are a 404, except addresses
// that a person opens (/, /t/CODE, /join): those get index.html.
const (
	forEver  = "public, max-age=31536000, immutable"
	askFirst = "no-cache"
)

// twins are the encodings cmd/dev makes beside a file, the best one first.
var twins = []struct{ encoding, ext string }{{"br", ".br"}, {"gzip", ".gz"}}

// types are the media types of what is built. Streaming compilation needs
// application/wasm without parameters.
var types = map[string]string{
	".css":         "text/css; charset=utf-8",
	".html":        "text/html; charset=utf-8",
	".ico":         "image/x-icon",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json; charset=utf-8",
	".png":         "image/png",
	".svg":         "image/svg+xml",
	".txt":         "text/plain; charset=utf-8",
	".wasm":        "application/wasm",
	".webmanifest": "application/manifest+json",
	".woff2":       "font/woff2",
}

// notBuilt is all a browser gets from a program that was compiled without the app.
const notBuilt = `<!doctype html>
<html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Trayside is not built yet</title>
<h1>The phone app is not built into this program</h1>
<p>The server runs, and no data is lost. In the folder of the source code, run</p>
<pre>go run ./cmd/dev gen</pre>
<p>then build and start the program again. <code>go run ./cmd/dev demo</code> does all of it.</p>
</html>
`

// app is the built phone app.
type app struct{ files map[string]*asset }

type asset struct {
	media, cache string
	bodies       map[string]body // by encoding; "" is the file itself
}

type body struct {
	bytes []byte
	etag  string
}

func newApp(files fs.FS) (*app, error) {
	a := &app{files: map[string]*asset{}}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		media, known := types[path.Ext(name)]
		if err != nil || d.IsDir() || !known || name == "placeholder.txt" {
			return err
		}
		f := &asset{media: media, cache: askFirst, bodies: map[string]body{}}
		if strings.HasPrefix(name, "assets/") {
			f.cache = forEver
		}
		plain, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		f.bodies[""] = newBody(plain)
		for _, t := range twins {
			packed, err := fs.ReadFile(files, name+t.ext)
			if errors.Is(err, fs.ErrNotExist) {
				continue
			}
			if err != nil {
				return err
			}
			f.bodies[t.encoding] = newBody(packed)
		}
		a.files[name] = f
		return nil
	})
	return a, err
}

// newBody gives every encoding an ETag of its own: two bodies must not share one.
func newBody(b []byte) body {
	sum := sha256.Sum256(b)
	return body{b, `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`}
}

func (a *app) serve(c echo.Context) error {
	r := c.Request()
	name := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/")
	f := a.files[name]
	if f == nil && navigates(r) {
		if f = a.files["index.html"]; f == nil {
			return c.HTML(http.StatusServiceUnavailable, notBuilt)
		}
	}
	if f == nil {
		return problem("not-found", "There is no such file. If the app asks for it, the page is older than the server: reload it.")
	}
	encoding := f.choose(r.Header.Get("Accept-Encoding"))
	b := f.bodies[encoding]
	h := c.Response().Header()
	h.Set("Content-Type", f.media)
	h.Set("Cache-Control", f.cache)
	h.Set("ETag", b.etag)
	if len(f.bodies) > 1 {
		h.Set("Vary", "Accept-Encoding")
	}
	if encoding != "" {
		h.Set("Content-Encoding", encoding)
	}
	http.ServeContent(c.Response(), r, "", time.Time{}, bytes.NewReader(b.bytes))
	return nil
}

// navigates tells whether a person opens the address, rather than a page
// fetching a part of itself. No such address has a dot in its last part.
func navigates(r *http.Request) bool {
	p := r.URL.Path
	return strings.Contains(r.Header.Get("Accept"), "text/html") &&
		!strings.HasPrefix(p, "/api/") && !strings.HasPrefix(p, "/assets/") &&
		!strings.Contains(path.Base(p), ".")
}

// choose picks the best encoding that there is and that is accepted.
func (f *asset) choose(accept string) string {
	for _, t := range twins {
		if _, there := f.bodies[t.encoding]; there && accepts(accept, t.encoding) {
			return t.encoding
		}
	}
	return ""
}

// accepts reads Accept-Encoding (RFC 9110, 12.5.3) as far as a file with twins
// needs: a name counts unless its weight is zero, a star stands for any.
func accepts(header, encoding string) bool {
	star := false
	for part := range strings.SplitSeq(header, ",") {
		name, params, _ := strings.Cut(strings.TrimSpace(part), ";")
		name = strings.ToLower(strings.TrimSpace(name))
		if name != encoding && name != "*" {
			continue
		}
		weight := 1.0
		if _, q, there := strings.Cut(params, "="); there {
			if w, err := strconv.ParseFloat(strings.TrimSpace(q), 64); err == nil {
				weight = w
			}
		}
		if name == encoding {
			return weight > 0
		}
		star = weight > 0
	}
	return star
}
