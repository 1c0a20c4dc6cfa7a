package server_test

import (
	"net/http"
	"net/netip"
	"strings"
	"testing"
	"testing/fstest"

	"trayside/server"
)

const page = "text/html,application/xhtml+xml"

func newAppSite(t *testing.T) *site {
	return newSite(t, func(c *server.Config) {
		c.App = fstest.MapFS{
			"index.html":                 {Data: []byte("<!doctype html>page")},
			"index.html.br":              {Data: []byte("br page")},
			"index.html.gz":              {Data: []byte("gz page")},
			"sw.js":                      {Data: []byte("worker")},
			"manifest.webmanifest":       {Data: []byte("{}")},
			"placeholder.txt":            {Data: []byte("for git")},
			"assets/engine-0a1b.wasm":    {Data: []byte("engine")},
			"assets/engine-0a1b.wasm.br": {Data: []byte("br engine")},
			"assets/icon-0a1b.png":       {Data: []byte("icon")},
		}
	})
}

func TestTheAppIsServed(t *testing.T) {
	s := newAppSite(t)
	const ask, ever = "no-cache", "public, max-age=31536000, immutable"
	tests := []struct {
		name, path, accept, encodings string
		body, media, encoding, cache  string
	}{
		{"the start page", "/", page, "", "<!doctype html>page", "text/html; charset=utf-8", "", ask},
		{"a tray's label", "/t/7K3-M9Q-X2", page, "gzip, br", "br page", "text/html; charset=utf-8", "br", ask},
		{"an invite", "/join", page, "gzip, deflate", "gz page", "text/html; charset=utf-8", "gzip", ask},
		{"brotli not wanted", "/", page, "br;q=0, gzip;q=0.5", "gz page", "text/html; charset=utf-8", "gzip", ask},
		{"anything but gzip", "/", page, "*, gzip;q=0", "br page", "text/html; charset=utf-8", "br", ask},
		{"the page asked for by name", "/index.html", "*/*", "identity", "<!doctype html>page", "text/html; charset=utf-8", "", ask},
		{"the service worker", "/sw.js", "*/*", "br", "worker", "text/javascript; charset=utf-8", "", ask},
		{"the manifest", "/manifest.webmanifest", "*/*", "", "{}", "application/manifest+json", "", ask},
		{"the engine", "/assets/engine-0a1b.wasm", "*/*", "br", "br engine", "application/wasm", "br", ever},
		{"the engine, plain", "/assets/engine-0a1b.wasm", "*/*", "gzip", "engine", "application/wasm", "", ever},
		{"a picture", "/assets/icon-0a1b.png", "*/*", "br", "icon", "image/png", "", ever},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := s.get(tt.path, "", "Accept", tt.accept, "Accept-Encoding", tt.encodings)
			h := r.header
			if r.status != 200 || string(r.body) != tt.body || h.Get("Content-Type") != tt.media ||
				h.Get("Content-Encoding") != tt.encoding || h.Get("Cache-Control") != tt.cache {
				t.Errorf("%d %q, type %q, encoding %q, cache %q", r.status, r.body, h.Get("Content-Type"), h.Get("Content-Encoding"), h.Get("Cache-Control"))
			}
			tag := h.Get("ETag")
			again := s.get(tt.path, "", "Accept", tt.accept, "Accept-Encoding", tt.encodings, "If-None-Match", tag)
			if tag == "" || again.status != http.StatusNotModified || len(again.body) != 0 {
				t.Errorf("asked again with ETag %s: %d %q, want 304", tag, again.status, again.body)
			}
			head := s.do(http.MethodHead, tt.path, "", nil, "Accept", tt.accept, "Accept-Encoding", tt.encodings)
			if head.status != 200 || head.header.Get("ETag") != tag || len(head.body) != 0 {
				t.Errorf("HEAD: %d, ETag %s", head.status, head.header.Get("ETag"))
			}
		})
	}
}

func TestEveryEncodingHasAnETagOfItsOwn(t *testing.T) {
	s := newAppSite(t)
	seen := map[string]string{}
	for _, encoding := range []string{"identity", "gzip", "br"} {
		r := s.get("/", "", "Accept", page, "Accept-Encoding", encoding)
		if r.header.Get("Vary") != "Accept-Encoding" {
			t.Errorf("%s: Vary %q", encoding, r.header.Get("Vary"))
		}
		if other, there := seen[r.header.Get("ETag")]; there {
			t.Errorf("%s and %s share an ETag", encoding, other)
		}
		seen[r.header.Get("ETag")] = encoding
	}
	if r := s.get("/", "", "Accept", page, "Accept-Encoding", "br", "If-None-Match", `"old"`); r.status != 200 {
		t.Errorf("another ETag: %d, want 200", r.status)
	}
}

func TestWhatIsNotThereIsNotThePage(t *testing.T) {
	s := newAppSite(t)
	tests := map[string][2]string{
		"a script that was replaced":   {"/assets/main-ffff.js", "*/*"},
		"the same, opened by a person": {"/assets/main-ffff.js", page},
		"a file beside the page":       {"/favicon.ico", page},
		"a fetch without a file":       {"/t/CODE", "*/*"},
		"an unknown part of the API":   {"/api/v1/nothing", page},
		"the placeholder":              {"/placeholder.txt", "*/*"},
		"a twin by its own name":       {"/index.html.br", "*/*"},
		"a way out of the folder":      {"/assets/%2e%2e/%2e%2e/go.mod", "*/*"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			s.get(tt[0], "", "Accept", tt[1]).refused(t, http.StatusNotFound, "not-found")
		})
	}
	s.do(http.MethodPut, "/api/v1/about", "", nil).refused(t, http.StatusMethodNotAllowed, "method")
}

func TestAProgramWithoutTheAppSaysWhatToRun(t *testing.T) {
	s := newSite(t)
	r := s.get("/t/CODE", "", "Accept", page)
	if r.status != http.StatusServiceUnavailable || !strings.Contains(string(r.body), "go run ./cmd/dev gen") ||
		!strings.HasPrefix(r.header.Get("Content-Type"), "text/html") {
		t.Errorf("%d %s", r.status, r.body)
	}
	if r := s.get("/livez", ""); r.status != 200 {
		t.Errorf("livez %d: the server itself runs", r.status)
	}
}

func TestEveryAnswerCarriesTheHeaders(t *testing.T) {
	s := newAppSite(t)
	want := map[string]string{
		"Content-Security-Policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; " +
			"font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; frame-ancestors 'none'; " +
			"form-action 'self'; require-trusted-types-for 'script'; trusted-types app lit-html",
		"X-Content-Type-Options": "nosniff",
		"Referrer-Policy":        "no-referrer",
		"Permissions-Policy":     "camera=(self), bluetooth=(self)",
	}
	for _, path := range []string{"/", "/assets/icon-0a1b.png", "/api/v1/about", "/api/v1/stream", "/none.js", "/livez"} {
		r := s.get(path, "", "Accept", page)
		for name, value := range want {
			if got := r.header.Get(name); got != value {
				t.Errorf("%s: %s is %q, want %q", path, name, got, value)
			}
		}
	}
	for _, path := range []string{"/api/v1/about", "/api/v1/stream", "/api/v1/nothing"} {
		if got := s.get(path, "").header.Get("Cache-Control"); got != "no-store" {
			t.Errorf("%s: Cache-Control %q, want no-store", path, got)
		}
	}
}

func TestStrangersAreCountedByTheirOwnAddress(t *testing.T) {
	ask := func(s *site) (refused int) {
		for range 60 {
			if s.get("/api/v1/about", "", "X-Forwarded-For", "203.0.113.7").status == http.StatusTooManyRequests {
				refused++
			}
		}
		return refused
	}
	s := newSite(t)
	if got := ask(s); got != 20 {
		t.Errorf("%d of 60 refused, want 20", got)
	}
	// A made-up address does not help: nobody in front is trusted.
	if got := s.get("/api/v1/about", "", "X-Forwarded-For", "198.51.100.1").status; got != http.StatusTooManyRequests {
		t.Errorf("with a made-up address: %d, want 429", got)
	}
	proxied := newSite(t, func(c *server.Config) { c.Proxies = prefixes(t, "127.0.0.0/8") })
	if got := ask(proxied); got != 20 {
		t.Errorf("behind a proxy %d of 60 refused, want 20", got)
	}
	if got := proxied.get("/api/v1/about", "", "X-Forwarded-For", "198.51.100.1").status; got != http.StatusOK {
		t.Errorf("another client of the proxy: %d, want 200", got)
	}
}

func prefixes(t testing.TB, text string) []netip.Prefix {
	t.Helper()
	p, err := netip.ParsePrefix(text)
	if err != nil {
		t.Fatal(err)
	}
	return []netip.Prefix{p}
}
