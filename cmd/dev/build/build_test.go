package build

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trayside/cmd/dev/tree"
)

// small is an app with all the parts of the real one and nothing in them.
var small = map[string]string{
	"cmd/trayside/main.go":                     "package main\n\nfunc main() {}\n",
	"pwa/engine/main.go":                       "package main\n\nfunc main() { println(\"engine\") }\n",
	"pwa/package-lock.json":                    `{"name":"x","lockfileVersion":3,"packages":{}}`,
	"pwa/node_modules/.package-lock.json":      `{}`,
	"pwa/node_modules/part/package.json":       `{"name":"part","version":"1.2.3","license":"MIT","main":"index.js"}`,
	"pwa/node_modules/part/index.js":           `export const part = "a part from a library";`,
	"pwa/node_modules/part/LICENSE":            "Do as you like.\n",
	"pwa/node_modules/part/letters.woff2":      "not really a font",
	"pwa/src/index.html":                       `<!doctype html><link rel="stylesheet" href="/main.css"><link rel="icon" href="/icon.svg"><script defer src="/glance.js"></script><script type="module" src="/main.js"></script>`,
	"pwa/src/glance-show.ts":                   `console.log("glance");`,
	"pwa/src/begin.ts":                         `import { part } from "part"; console.log("begin", part);`,
	"pwa/src/main.ts":                          `import { part } from "part"; import "./main.css"; console.log(part, WORKER_URL, READER_URL, SPANISH_URL, LATER);`,
	"pwa/src/main.css":                         `@font-face { font-family: x; src: url("part/letters.woff2"); }`,
	"pwa/src/worker.ts":                        `import "wasm_exec"; console.log(ENGINE_URL);`,
	"pwa/src/sw.ts":                            `console.log(BUILD, PRECACHE, LATER);`,
	"pwa/src/strings/es.ts":                    `export const spanish = "hola";`,
	"pwa/src/reader.ts":                        `import { read } from "zxing-wasm"; read(READER_WASM_URL);`,
	"pwa/node_modules/zxing-wasm/index.js":     `export const read = (url) => console.log(url);`,
	"pwa/node_modules/zxing-wasm/package.json": `{"name":"zxing-wasm","version":"9","license":"MIT","main":"index.js"}`,
	"pwa/node_modules/zxing-wasm/LICENSE":      "Do as you like, too.\n",
	"LICENSE":                                  "The Apache License.\n",
	"pwa/" + readerWasm:                        "\x00asm, not really",
	"pwa/dist/placeholder.txt":                 "kept",
	"pwa/dist/assets/main-OLDNAME.js":          "of an older build",
}

func smallTree(t *testing.T) tree.Tree {
	t.Helper()
	found, err := tree.Find(t.Context(), io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	tr := tree.Tree{Root: t.TempDir(), Out: &out}
	t.Cleanup(func() {
		if t.Failed() {
			t.Log(out.String())
		}
	})
	for _, name := range []string{"go.mod", "go.sum"} { // they pin esbuild
		b, err := os.ReadFile(found.Path(name))
		if err != nil {
			t.Fatal(err)
		}
		small[name] = string(b)
	}
	// The lock file first: what npm wrote must not be older.
	for _, name := range append([]string{"pwa/package-lock.json"}, keys(small)...) {
		if _, err := tr.WriteFile(name, []byte(small[name])); err != nil {
			t.Fatal(err)
		}
	}
	return tr
}

func keys(m map[string]string) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	return out
}

func read(t *testing.T, tr tree.Tree, name string) string {
	t.Helper()
	b, err := os.ReadFile(tr.Path(distDir + "/" + name))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestBuildFromSourcesToDist(t *testing.T) {
	tr := smallTree(t)
	if err := Run(t.Context(), tr); err != nil {
		t.Fatal(err)
	}
	var at map[string]string
	if err := json.Unmarshal([]byte(read(t, tr, "manifest.json")), &at); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{
		"index.html", "sw.js", "manifest.webmanifest", "main.js", "main.css", "worker.js", "engine.wasm",
		"letters.woff2", "icon.svg", "icon-192.png", "icon-512.png", "icon-maskable-512.png",
	} {
		if at[name] == "" {
			t.Errorf("manifest.json has no %s; it has %v", name, at)
		}
	}
	contains := func(file, want string) {
		t.Helper()
		if got := read(t, tr, file); !strings.Contains(got, want) {
			t.Errorf("%s does not hold %q", file, want)
		}
	}
	contains("index.html", `src="/`+at["main.js"]+`"`)
	contains("index.html", `href="/`+at["main.css"]+`"`)
	contains("index.html", `src="/`+at["glance.js"]+`"`)
	contains("sw.js", `"/`+at["glance.js"]+`"`)
	contains("index.html", `href="/`+at["icon.svg"]+`"`)
	contains(at["main.js"], "/"+at["worker.js"])
	contains(at["worker.js"], "/"+at["engine.wasm"])
	contains(at["worker.js"], "importObject") // Go's loader is in it
	contains(at["main.css"], "/"+at["letters.woff2"])
	contains("sw.js", "/"+at["engine.wasm"])
	contains("sw.js", `"/index.html"`)
	contains(at["reader.js"], "/"+at["reader.wasm"])
	contains(at["main.js"], "/"+at["reader.js"])
	contains(at["main.js"], "/"+at["es.js"])
	contains(at["es.js"], "hola")
	contains("sw.js", `["/`+at["reader.wasm"]+`","/`+at["reader.js"]+`","/`+at["es.js"]+`"]`)
	contains("manifest.webmanifest", "/"+at["icon-maskable-512.png"])
	contains("manifest.webmanifest", "la compostera de lombrices")
	contains("licences.txt", "part 1.2.3 (MIT)\n\nDo as you like.")
	contains("licences.txt", "compiled into zxing-wasm (Apache-2.0)\n\nThe Apache License.")
	contains("licences.txt", "The Go Authors")
	contains("placeholder.txt", "kept")
	if got := read(t, tr, "sw.js"); strings.Contains(got, "licences.txt") || strings.Contains(got, "manifest.json") {
		t.Error("sw.js keeps files that no screen needs")
	}
	if _, err := os.Stat(tr.Path(distDir + "/assets/main-OLDNAME.js")); err == nil {
		t.Error("a file of an older build is still there")
	}
	z, err := gzip.NewReader(strings.NewReader(read(t, tr, at["engine.wasm"]+".gz")))
	if err != nil {
		t.Fatal(err)
	}
	if back, err := io.ReadAll(z); err != nil || string(back) != read(t, tr, at["engine.wasm"]) {
		t.Errorf("the .gz twin of the engine does not give it back: %v", err)
	}
	if n := len(read(t, tr, at["engine.wasm"]+".br")); n == 0 || n > len(read(t, tr, at["engine.wasm"]+".gz")) {
		t.Errorf("the .br twin of the engine is %d bytes, want fewer than the .gz", n)
	}
	if _, err := os.Stat(tr.Path(distDir + "/" + at["icon-192.png"] + ".gz")); err == nil {
		t.Error("a PNG got a compressed twin")
	}

	// Nothing changed: nothing is written. Something changed: its name does too.
	info := func(name string) os.FileInfo {
		i, err := os.Stat(tr.Path(distDir + "/" + name))
		if err != nil {
			t.Fatal(err)
		}
		return i
	}
	before, sw := info(at["engine.wasm"]+".br"), read(t, tr, "sw.js")
	if _, err := tr.WriteFile("pwa/src/main.ts", []byte(small["pwa/src/main.ts"]+`console.log("more");`)); err != nil {
		t.Fatal(err)
	}
	if err := Run(t.Context(), tr); err != nil {
		t.Fatal(err)
	}
	if after := info(at["engine.wasm"] + ".br"); after.ModTime() != before.ModTime() {
		t.Error("the engine did not change and was written again")
	}
	if read(t, tr, "sw.js") == sw {
		t.Error("the page changed and the service worker did not: phones would keep the old page")
	}
	if _, err := os.Stat(tr.Path(distDir + "/" + at["main.js"])); err == nil {
		t.Error("the old main.js is still there")
	}
}

func TestPageThatNamesWhatIsNotBuiltIsRefused(t *testing.T) {
	_, err := fillIn(`<script src="/main.js"></script><link href="/gone.css">`, []file{{path: "assets/main-1.js", logical: "main.js"}})
	if err == nil || !strings.Contains(err.Error(), "/gone.css") {
		t.Errorf("fillIn = %v, want an error that names /gone.css", err)
	}
}

func TestFirstVisitOverBudgetFails(t *testing.T) {
	files := []file{{path: "assets/a.js", part: "page"}, {path: "licences.txt"}}
	for _, tt := range []struct {
		br   int64
		want bool
	}{{Budget, true}, {Budget + 1, false}} {
		var out bytes.Buffer
		err := report(&out, files, map[string]size{"assets/a.js": {raw: 3 * Budget, br: tt.br}, "licences.txt": {raw: Budget, br: Budget}})
		if (err == nil) != tt.want {
			t.Errorf("report of %d bytes: %v, want passing %v", tt.br, err, tt.want)
		}
	}
}

func TestWhatIsFetchedLaterIsNoPartOfTheFirstVisit(t *testing.T) {
	later := file{path: "assets/reader-1.js", part: "label reader", body: []byte("r"), later: true}
	files := []file{{path: "assets/a.js", part: "page"}, later}
	var out bytes.Buffer
	if err := report(&out, files, map[string]size{"assets/a.js": {raw: 9, br: Budget}, later.path: {raw: 9, br: 321_000}}); err != nil {
		t.Errorf("report with a reader over the budget: %v", err)
	}
	if !strings.Contains(out.String(), "later: label reader") || !strings.Contains(out.String(), "321 kB") {
		t.Errorf("report says %q, want the reader in a line of its own, with its size", out.String())
	}
	if rows, _ := precache(files); len(rows) != 0 {
		t.Errorf("precache = %+v, want nothing: the first visit would fetch the reader", rows)
	}
}

func TestKeptFilesHaveARevisionUnlessTheirNameChanges(t *testing.T) {
	rows, one := precache([]file{
		{path: "index.html", body: []byte("a"), kept: true},
		{path: "assets/x-1.js", body: []byte("b"), kept: true},
		{path: "licences.txt", body: []byte("c")},
	})
	if len(rows) != 2 || rows[0].URL != "/assets/x-1.js" || rows[0].Revision != nil || rows[1].URL != "/index.html" || rows[1].Revision == nil {
		t.Errorf("precache = %+v, want the asset without a revision, then the page with one", rows)
	}
	_, two := precache([]file{{path: "index.html", body: []byte("z"), kept: true}, {path: "assets/x-1.js", body: []byte("b"), kept: true}})
	if one == two {
		t.Error("the build's hash is the same for another page")
	}
}

func TestPackageDir(t *testing.T) {
	for in, want := range map[string]string{
		"src/main.ts":                               "",
		"node_modules/lit/index.js":                 "node_modules/lit",
		"node_modules/@lit/part/a/b.js":             "node_modules/@lit/part",
		"node_modules/a/node_modules/@b/c/index.js": "node_modules/a/node_modules/@b/c",
	} {
		if got := packageDir(in); got != want {
			t.Errorf("packageDir(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestLibraryWithoutLicenceIsRefused(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "bare")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := notice(dir); err == nil || !strings.Contains(err.Error(), "bare") {
		t.Errorf("notice = %v, want an error that names the library", err)
	}
}

func TestMaskableIconKeepsItsDrawingInTheSafeZone(t *testing.T) {
	for _, i := range iconList {
		if i.purpose != "maskable" {
			continue
		}
		img := raster(drawing(), i.px, i.inset)
		half := float64(i.px) / 2
		for y := range i.px {
			for x := range i.px {
				dx, dy := float64(x)+0.5-half, float64(y)+0.5-half
				if dx*dx+dy*dy > 0.16*float64(i.px*i.px) && img.At(x, y) != slate {
					t.Fatalf("pixel %d, %d lies outside the safe zone and is drawn on", x, y)
				}
			}
		}
	}
}

func TestIconShowsItsShapes(t *testing.T) {
	img := raster(drawing(), 100, 0)
	for _, tt := range []struct {
		name string
		x, y int
		want any
	}{
		{"ground", 2, 2, slate},
		{"wall of the top tray", 20, 45, chalk},
		{"floor of the lowest tray", 50, 85, chalk},
		{"stem of the mark", 50, 20, amber},
		{"meal", 50, 50, amber},
		{"above the bedding", 50, 57, slate},
	} {
		if got := img.At(tt.x, tt.y); got != tt.want {
			t.Errorf("%s at %d, %d is %v, want %v", tt.name, tt.x, tt.y, got, tt.want)
		}
	}
	if s := svg(drawing()); strings.Count(s, "<path") != len(drawing()) {
		t.Errorf("the SVG has %d paths, want %d", strings.Count(s, "<path"), len(drawing()))
	}
}

func TestScriptsThatThePageImportsAreFetchedBesideIt(t *testing.T) {
	files := []file{{path: "assets/shared-1.js", first: true}, {path: "assets/rest-1.js"}}
	page := preload("<head>\n\t</head>\n", files)
	if want := "<head>\n\t\t<link rel=\"modulepreload\" href=\"/assets/shared-1.js\" />\n\t</head>\n"; page != want {
		t.Errorf("preload = %q, want %q", page, want)
	}
}
