package main

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"trayside/cmd/dev/tree"
)

// graph says which packages of this module each package may import. The first
// line that fits a package counts; a line ending in /… stands for a folder's
// packages. What is not named may not be imported.
//
// Imports point one way: the program → the server → the journal and the advice;
// the engine → the same two; the journal → the log and the record; the advice →
// the answers → the models → the record. Siblings never import each other:
// advice passes one's result to the next as values. Commands that need no
// household (mix, plan) ask the domain themselves.
const graph = `
cmd/dev                  cmd/dev/…
cmd/dev/tree
cmd/dev/typegen
cmd/dev/build            cmd/dev/tree
cmd/dev/fieldtrial       internal/fieldtrial
cmd/dev/scan             internal/label server/sheet
cmd/dev/soil             internal/label server/sheet server/sheet/sheettest
cmd/trayside             server server/… internal/demo internal/entries internal/journal internal/advice internal/plan internal/colony internal/feedstock internal/label internal/record internal/units sync/…
server/store             sync/…
server/store/…           server server/store sync/…
server/sheet             internal/label
server/sheet/sheettest   internal/label
server                   server/… pwa internal/journal internal/advice internal/label internal/record sync/…
pwa
pwa/engine               pwa/engine/phone
pwa/engine/phone         internal/journal internal/advice internal/label internal/order internal/record internal/units sync/…
internal/demo            internal/journal internal/label internal/record internal/units sync/oplog sync/replica
internal/entries         internal/journal internal/order internal/record internal/units sync/oplog sync/replica
internal/journal         internal/label internal/order internal/record internal/units sync/…
internal/advice          internal/ration internal/tray internal/trouble internal/plan internal/agenda internal/colony internal/feedstock internal/label internal/order internal/record internal/units
internal/fieldtrial      internal/advice internal/record internal/units
internal/ration          internal/colony internal/feedstock internal/order internal/record internal/units
internal/tray            internal/colony internal/feedstock internal/order internal/record internal/units
internal/trouble         internal/colony internal/feedstock internal/order internal/record internal/units
internal/plan            internal/colony internal/feedstock internal/order internal/record internal/units
internal/agenda          internal/colony internal/feedstock internal/record internal/units
internal/colony          internal/order internal/record internal/units
internal/feedstock       internal/order internal/record internal/units
internal/label
internal/record          internal/units
internal/units
internal/order
sync/oplog
sync/replica             sync/oplog
sync/digest              sync/oplog
sync/exchange            sync/oplog sync/digest sync/roster
sync/roster              sync/oplog sync/digest
sync/roster/p256         sync/roster
`

// ban keeps one package, with all below it, out of others, for a reason.
type ban struct {
	from   string // the packages that may not, "…" for a folder's
	what   string // import path, with everything below it
	except string // a package of this module that may all the same
	why    string
}

var directBans = []ban{
	{"…", "github.com/dgraph-io/badger/v4", "server/store", "only the store knows how the log is kept; another store must fit in its place"},
	{"…", "github.com/labstack/echo/v4", "server", "only the server speaks HTTP through echo"},
	{"…", "github.com/golang-jwt/jwt/v5", "server", "only the server makes and reads tokens"},
}

// deepBans hold for everything a program is linked with, however far down.
var deepBans = []ban{
	{from: "pwa/engine", what: "net/http", why: "the phone's network is the browser's; it would add megabytes"},
	{from: "pwa/engine", what: "github.com/labstack/echo/v4", why: "the phone serves nothing"},
	{from: "pwa/engine", what: "github.com/dgraph-io/badger/v4", why: "the phone's log lies in IndexedDB"},
	{from: "pwa/engine", what: "crypto/ecdsa", why: "the curves weigh 70 kB on the way to a phone, and its browser verifies signatures"},
	{from: "pwa/engine", what: "os/exec", why: "a browser starts no programs"},
	{from: "pwa/engine", what: "testing", why: "test code does not belong on a phone"},
	{from: "cmd/trayside", what: "testing", why: "test code does not belong in the program"},
	{from: "cmd/trayside", what: "gonum.org/v1/gonum", why: "the general library is the reference in tests; its sums differ between processors"},
	{from: "cmd/trayside", what: "github.com/evanw/esbuild", why: "a build tool"},
}

type goPackage struct {
	ImportPath string
	Dir        string
	Standard   bool
	Imports    []string
	Deps       []string
	GoFiles    []string
}

// platform is one that packages are built for: a constraint can hide an import
// from either of the two.
type platform struct {
	name     string
	env      []string
	packages []string
}

var platforms = []platform{
	{"native", nil, []string{"./..."}},
	{"js/wasm", wasmEnv, wasmPackages},
}

// ours returns the module's packages that build on the platform, by path below
// the module, and every package they are linked with by import path.
func ours(t *testing.T, on platform) (own map[string]goPackage, all map[string]goPackage) {
	t.Helper()
	tr, err := tree.Find(t.Context(), io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	out, err := tr.Output(t.Context(), tree.Cmd{
		Env: on.env, Name: "go",
		Args: append([]string{"list", "-deps", "-json=ImportPath,Dir,Standard,Imports,Deps,GoFiles"}, on.packages...),
	})
	if err != nil {
		t.Fatal(err)
	}
	own, all = map[string]goPackage{}, map[string]goPackage{}
	for dec := json.NewDecoder(strings.NewReader(out)); ; {
		var p goPackage
		if err := dec.Decode(&p); err == io.EOF {
			return own, all
		} else if err != nil {
			t.Fatal(err)
		}
		all[p.ImportPath] = p
		if rel, ok := strings.CutPrefix(p.ImportPath, module+"/"); ok && len(p.GoFiles) > 0 {
			own[rel] = p
		}
	}
}

func fits(pattern, pkg string) bool {
	if pattern == "…" {
		return true
	}
	if folder, ok := strings.CutSuffix(pattern, "/…"); ok {
		return strings.HasPrefix(pkg, folder+"/")
	}
	return pkg == pattern
}

// below reports whether path is what or lies under it.
func below(path, what string) bool { return path == what || strings.HasPrefix(path, what+"/") }

// allowed returns what pkg may import of this module.
func allowed(pkg string) (may []string, ok bool) {
	for line := range strings.Lines(graph) {
		if f := strings.Fields(line); len(f) > 0 && fits(f[0], pkg) {
			return f[1:], true
		}
	}
	return nil, false
}

func TestImportsFollowTheGraph(t *testing.T) {
	for _, platform := range platforms {
		t.Run(platform.name, func(t *testing.T) {
			own, _ := ours(t, platform)
			for rel, p := range own {
				may, ok := allowed(rel)
				if !ok {
					t.Errorf("%s stands in no line of the graph; say what it may import", rel)
				}
				for _, im := range p.Imports {
					to, ok := strings.CutPrefix(im, module+"/")
					if ok && !slices.ContainsFunc(may, func(m string) bool { return fits(m, to) }) {
						t.Errorf("%s imports %s; the graph allows %v", rel, to, may)
					}
				}
			}
		})
	}
}

func TestLogAndDomainUseTheStandardLibraryAlone(t *testing.T) {
	for _, platform := range platforms {
		t.Run(platform.name, func(t *testing.T) {
			own, all := ours(t, platform)
			for rel, p := range own {
				if !below(rel, "sync") && !below(rel, "internal") {
					continue
				}
				for _, im := range p.Deps {
					if !below(im, module) && !all[im].Standard {
						t.Errorf("%s is linked with %s; the log and the domain run everywhere, forever, on the standard library alone", rel, im)
					}
				}
			}
		})
	}
}

func TestPackagesThatAreKeptOut(t *testing.T) {
	for _, platform := range platforms {
		t.Run(platform.name, func(t *testing.T) {
			own, _ := ours(t, platform)
			for rel, p := range own {
				for _, b := range directBans {
					if !fits(b.from, rel) || rel == b.except {
						continue
					}
					for _, im := range p.Imports {
						if below(im, b.what) {
							t.Errorf("%s imports %s: %s", rel, im, b.why)
						}
					}
				}
				for _, b := range deepBans {
					if b.from != rel {
						continue
					}
					for _, im := range p.Deps {
						if below(im, b.what) {
							t.Errorf("%s is linked with %s: %s", rel, im, b.why)
						}
					}
				}
			}
		})
	}
}

func TestGraphReadsAsMeant(t *testing.T) {
	for _, tt := range []struct {
		from, to string
		want     bool
	}{
		{"internal/advice", "internal/ration", true},
		{"internal/ration", "internal/tray", false},
		{"internal/ration", "internal/journal", false},
		{"server", "server/store", true},
		{"server/store", "server", false},
		{"sync/oplog", "internal/record", false},
		{"pwa/engine", "internal/journal", false},
		{"pwa/engine/phone", "internal/journal", true},
	} {
		may, ok := allowed(tt.from)
		got := ok && slices.ContainsFunc(may, func(m string) bool { return fits(m, tt.to) })
		if got != tt.want {
			t.Errorf("graph lets %s import %s: %v, want %v (%s)", tt.from, tt.to, got, tt.want, fmt.Sprint(may))
		}
	}
}
