package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trayside/cmd/dev/tree"
)

// root is all that may stand in the repository's root, besides dot-files.
var root = []string{
	"cmd", "internal", "pwa", "server", "sync",
	"go.mod", "go.sum", "Dockerfile", "LICENSE", "README.md", "DEVELOPERS.md",
}

// local is what using the program leaves in the root; git ignores it.
var local = []string{"data", "trayside", "trayside.exe"}

func find(t *testing.T) tree.Tree {
	t.Helper()
	tr, err := tree.Find(t.Context(), io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	return tr
}

func TestRootHoldsOnlyWhatItMay(t *testing.T) {
	entries, err := os.ReadDir(find(t).Root)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, e := range entries {
		seen[e.Name()] = true
		if !strings.HasPrefix(e.Name(), ".") && !slices.Contains(root, e.Name()) && !slices.Contains(local, e.Name()) {
			t.Errorf("%s stands in the root; move it into a folder", e.Name())
		}
	}
	for _, name := range root {
		if !seen[name] {
			t.Errorf("%s is missing from the root", name)
		}
	}
}

// packages returns the folders of all packages, natively and for js/wasm.
func packages(t *testing.T) []string {
	t.Helper()
	var dirs []string
	for _, platform := range platforms {
		own, _ := ours(t, platform)
		for rel := range own {
			if !slices.Contains(dirs, rel) {
				dirs = append(dirs, rel)
			}
		}
	}
	slices.Sort(dirs)
	return dirs
}

func TestEveryPackageStandsInTheFolderTable(t *testing.T) {
	b, err := os.ReadFile(find(t).Path("DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]bool{}
	for line := range strings.Lines(string(b)) {
		if cells := strings.Split(line, "|"); len(cells) > 2 {
			named[strings.Trim(cells[1], " `/")] = true
		}
	}
	dirs := packages(t)
	for _, dir := range dirs {
		if !named[dir] {
			t.Errorf("DEVELOPERS.md has no row for %s in its folder table", dir)
		}
	}
	if n := strings.Count(string(b), "\n"); n >= 200 {
		t.Errorf("DEVELOPERS.md has %d lines, want fewer than 200: nobody reads a long one", n)
	}
}

func TestEveryPackageHasOneComment(t *testing.T) {
	tr := find(t)
	for _, dir := range packages(t) {
		var with []string
		for name, f := range parse(t, tr.Path(dir)) {
			if f.Doc != nil {
				with = append(with, name)
			}
		}
		if len(with) != 1 {
			slices.Sort(with)
			t.Errorf("%s has %d package comments (%s), want one", dir, len(with), strings.Join(with, ", "))
		}
	}
}

// parse reads a package's files, tests left out, by name.
func parse(t *testing.T, dir string) map[string]*ast.File {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]*ast.File{}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(name)] = f
	}
	return files
}

func TestLockFileNamesNoRegistry(t *testing.T) {
	b, err := os.ReadFile(find(t).Path("pwa/package-lock.json"))
	if err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{`"resolved"`, "registry", "http://"} {
		if strings.Contains(string(b), word) {
			t.Errorf("pwa/package-lock.json holds %s: it must install from any registry; run npm install in pwa with omit-lockfile-registry-resolved set", word)
		}
	}
	if !strings.Contains(string(b), `"integrity"`) {
		t.Error("pwa/package-lock.json has no checksums")
	}
}

var quotedFile = regexp.MustCompile("`([\\w.-]+(?:/[\\w.-]+)+\\.(?:go|ts|css|json|md|mod))`")

func TestFilesThatTheGuideNamesAreThere(t *testing.T) {
	tr := find(t)
	b, err := os.ReadFile(tr.Path("DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	named := quotedFile.FindAllStringSubmatch(string(b), -1)
	if len(named) < 20 {
		t.Errorf("found %d files in DEVELOPERS.md, want at least 20: the pattern no longer fits the text", len(named))
	}
	for _, m := range named {
		if m[1] == "pwa/e2e/bench-NAME.ts" {
			continue // the reader's word
		}
		if _, err := os.Stat(tr.Path(m[1])); err == nil {
			continue
		}
		if _, err := os.Stat(tr.Path("pwa/src/" + m[1])); err != nil {
			t.Errorf("DEVELOPERS.md names %s, which is neither there nor in pwa/src", m[1])
		}
	}
}
