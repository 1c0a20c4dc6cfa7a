package build

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"sort"
	"strconv"
	"strings"

	"trayside/cmd/dev/tree"
)

// What every bundle has in common. Browsers that keep what es2022 asks for also
// have what the app cannot do without (module workers, wasm, IndexedDB).
var common = []string{
	"--bundle", "--minify", "--target=es2022", "--legal-comments=none", "--log-level=warning",
	`--define:process.env.NODE_ENV="production"`,
}

// metafile is the part of esbuild's metafile that we read.
type metafile struct {
	Inputs  map[string]struct{} `json:"inputs"`
	Outputs map[string]struct {
		EntryPoint string `json:"entryPoint"`
		CSSBundle  string `json:"cssBundle"`
		Imports    []struct {
			Path string `json:"path"`
			Kind string `json:"kind"`
		} `json:"imports"`
	} `json:"outputs"`
}

// esbuild bundles into a fresh folder below WorkDir and returns what it made, by
// path below pwa, and the input files it read.
func esbuild(ctx context.Context, t tree.Tree, out string, args ...string) (metafile, error) {
	dir := WorkDir + "/" + out
	if err := os.RemoveAll(t.Path(dir)); err != nil {
		return metafile{}, err
	}
	meta := t.Path(WorkDir + "/" + out + ".meta.json")
	args = append([]string{"tool", "esbuild"}, append(args, "--outdir=.build/"+out, "--metafile="+meta)...)
	if err := t.Run(ctx, tree.Cmd{Dir: pwaDir, Name: "go", Args: args}); err != nil {
		return metafile{}, err
	}
	b, err := os.ReadFile(meta)
	if err != nil {
		return metafile{}, err
	}
	var m metafile
	if err := json.Unmarshal(b, &m); err != nil {
		return metafile{}, fmt.Errorf("build: read esbuild's metafile: %w", err)
	}
	return m, nil
}

func (m metafile) inputs() []string {
	var in []string
	for name := range m.Inputs {
		in = append(in, name)
	}
	sort.Strings(in)
	return in
}

func bundleWorker(ctx context.Context, t tree.Tree, engineURL string) (file, []string, error) {
	args := append(common[:len(common):len(common)],
		"src/worker.ts", "--format=esm", "--alias:wasm_exec=./.build/wasm_exec.js",
		"--define:ENGINE_URL="+strconv.Quote(engineURL))
	m, err := esbuild(ctx, t, "worker", args...)
	if err != nil {
		return file{}, nil, err
	}
	body, err := os.ReadFile(t.Path(WorkDir + "/worker/worker.js"))
	if err != nil {
		return file{}, nil, err
	}
	return file{path: hashed("worker.js", body), logical: "worker.js", part: "worker", body: body, kept: true}, m.inputs(), nil
}

// readerWasm is the program of the library that reads square codes.
const readerWasm = "node_modules/zxing-wasm/dist/reader/zxing_reader.wasm"

// bundleReader makes the worker that reads labels where the browser can't, and
// its program: the worker comes last.
func bundleReader(ctx context.Context, t tree.Tree) ([]file, []string, error) {
	body, err := os.ReadFile(t.Path(pwaDir + "/" + readerWasm))
	if err != nil {
		return nil, nil, err
	}
	wasm := file{path: hashed("reader.wasm", body), logical: "reader.wasm", part: "label reader", body: body, later: true}
	args := append(common[:len(common):len(common)],
		"src/reader.ts", "--format=esm", "--define:READER_WASM_URL="+strconv.Quote("/"+wasm.path))
	m, err := esbuild(ctx, t, "reader", args...)
	if err != nil {
		return nil, nil, err
	}
	if body, err = os.ReadFile(t.Path(WorkDir + "/reader/reader.js")); err != nil {
		return nil, nil, err
	}
	worker := file{path: hashed("reader.js", body), logical: "reader.js", part: "label reader", body: body, later: true}
	return []file{wasm, worker}, m.inputs(), nil
}

// bundleWords makes the words of the other languages, a script for each, which
// only phones that speak it wait for.
func bundleWords(ctx context.Context, t tree.Tree) (file, []string, error) {
	args := append(common[:len(common):len(common)], "src/strings/es.ts", "--format=esm")
	m, err := esbuild(ctx, t, "words", args...)
	if err != nil {
		return file{}, nil, err
	}
	body, err := os.ReadFile(t.Path(WorkDir + "/words/es.js"))
	return file{path: hashed("es.js", body), logical: "es.js", part: "Spanish", body: body, later: true}, m.inputs(), err
}

// bundleGlance makes the shell's own script, which runs before all others and
// therefore shares no chunk with them.
func bundleGlance(ctx context.Context, t tree.Tree) (file, []string, error) {
	args := append(common[:len(common):len(common)], "src/glance-show.ts", "--format=iife")
	m, err := esbuild(ctx, t, "glance", args...)
	if err != nil {
		return file{}, nil, err
	}
	body, err := os.ReadFile(t.Path(WorkDir + "/glance/glance-show.js"))
	return file{path: hashed("glance.js", body), logical: "glance.js", part: "page", body: body, kept: true}, m.inputs(), err
}

// laterList is the addresses of what is fetched after the first visit, as a
// script writes them.
func laterList(files []file) string {
	urls := []string{}
	for _, f := range files {
		if f.later {
			urls = append(urls, "/"+f.path)
		}
	}
	list, err := json.Marshal(urls)
	if err != nil {
		panic("build: " + err.Error()) // strings always encode
	}
	return string(list)
}

// bundlePage bundles the page with its style sheet, its fonts and the chunks that
// screens load later.
func bundlePage(ctx context.Context, t tree.Tree, workerURL string, reader []file, words file) ([]file, []string, error) {
	args := append(common[:len(common):len(common)],
		"src/begin.ts", "src/main.ts", "--format=esm", "--splitting", "--loader:.woff2=file", "--public-path=/assets/",
		"--entry-names=[name]-[hash]", "--chunk-names=[name]-[hash]", "--asset-names=[name]-[hash]",
		"--define:WORKER_URL="+strconv.Quote(workerURL),
		"--define:READER_URL="+strconv.Quote("/"+reader[len(reader)-1].path),
		"--define:SPANISH_URL="+strconv.Quote("/"+words.path), "--external:/assets/*",
		"--define:LATER="+laterList(append(reader[:len(reader):len(reader)], words)))
	m, err := esbuild(ctx, t, "page", args...)
	if err != nil {
		return nil, nil, err
	}
	first := map[string]bool{} // what the page's two scripts import before they run
	for _, o := range m.Outputs {
		for _, i := range o.Imports {
			if o.EntryPoint != "" && i.Kind == "import-statement" && m.Outputs[i.Path].EntryPoint == "" {
				first[i.Path] = first[i.Path] || o.EntryPoint == "src/begin.ts" || o.EntryPoint == "src/main.ts"
			}
		}
	}
	var files []file
	for name, o := range m.Outputs {
		body, err := os.ReadFile(t.Path(pwaDir + "/" + name))
		if err != nil {
			return nil, nil, err
		}
		base := path.Base(name)
		f := file{path: "assets/" + base, part: "page", body: body, kept: true, first: first[name]}
		switch {
		case path.Ext(base) == ".woff2":
			f.part = "fonts"
			f.logical = unhashed(base)
		case o.EntryPoint == "src/begin.ts":
			f.logical = "begin.js"
		case o.EntryPoint == "src/main.ts":
			f.logical = "main.js"
		case path.Ext(base) == ".css":
			f.logical = "main.css"
		}
		files = append(files, f)
	}
	return sorted(files), m.inputs(), nil
}

// unhashed takes esbuild's "-HASH" out of a name.
func unhashed(base string) string {
	ext := path.Ext(base)
	stem := strings.TrimSuffix(base, ext)
	if i := strings.LastIndexByte(stem, '-'); i > 0 {
		stem = stem[:i]
	}
	return stem + ext
}

// kept is one row of what the service worker keeps; null for the revision says
// that the address itself changes with the content.
type kept struct {
	URL      string  `json:"url"`
	Revision *string `json:"revision"`
}

// precache returns the rows for the files to keep, sorted by address, and a hash
// over everything they are.
func precache(files []file) (rows []kept, build string) {
	var all strings.Builder
	for _, f := range sorted(files) {
		if !f.kept {
			continue
		}
		row := kept{URL: "/" + f.path}
		sum := digest(f.body)
		if !strings.HasPrefix(f.path, "assets/") {
			row.Revision = &sum
		}
		fmt.Fprintln(&all, f.path, sum)
		rows = append(rows, row)
	}
	return rows, digest([]byte(all.String()))[:16]
}

// bundleServiceWorker comes last: it carries the list of everything else. It has
// a fixed name, because a browser finds the next version under it, and is one
// plain script, which every browser with service workers takes.
func bundleServiceWorker(ctx context.Context, t tree.Tree, files []file) (file, []string, error) {
	rows, build := precache(files)
	list, err := json.Marshal(rows)
	if err != nil {
		return file{}, nil, err
	}
	args := append(common[:len(common):len(common)],
		"src/sw.ts", "--format=iife", "--define:BUILD="+strconv.Quote(build), "--define:PRECACHE="+string(list), "--define:LATER="+laterList(files))
	m, err := esbuild(ctx, t, "sw", args...)
	if err != nil {
		return file{}, nil, err
	}
	body, err := os.ReadFile(t.Path(WorkDir + "/sw/sw.js"))
	return file{path: "sw.js", logical: "sw.js", part: "service worker", body: body}, m.inputs(), err
}

// Bundle bundles test programs for Node into WorkDir/out and returns their files
// in the order of entries, which are paths below pwa.
func Bundle(ctx context.Context, t tree.Tree, out string, entries []string) ([]string, error) {
	args := []string{
		"--bundle", "--platform=node", "--format=esm", "--target=node20", "--sourcemap=inline", "--log-level=warning",
		"--external:playwright-core", "--external:puppeteer-core", "--external:axe-core", "--loader:.css=text", "--outbase=.",
		`--define:SPANISH_URL="./strings/es.ts"`, "--out-extension:.js=.mjs",
	}
	if _, err := esbuild(ctx, t, out, append(args, entries...)...); err != nil {
		return nil, err
	}
	var made []string
	for _, e := range entries {
		made = append(made, filepath.Join(t.Path(WorkDir), out, filepath.FromSlash(strings.TrimSuffix(e, ".ts")+".mjs")))
	}
	return made, nil
}
