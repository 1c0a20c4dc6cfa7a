package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// impure lists what the log and the domain may not call, and why. A name alone
// stands for the whole package.
var impure = map[string]string{
	"time.Now":   "the clock is an argument, so that a day can be replayed",
	"time.Since": "it reads the clock",
	"time.Until": "it reads the clock",
	"time.Local": "the zone of the machine is not the household's",
	"os":         "no input or output: callers read and write",
	"net":        "no input or output: callers read and write",
	"net/http":   "no input or output: callers read and write",
	"os/exec":    "no input or output: callers read and write",
	"math.Exp":   "differs by an ulp between amd64 and wasm; use units.Exp",
	"math.Exp2":  "differs by an ulp between amd64 and wasm; use units.Pow",
	"math.Pow":   "differs by an ulp between amd64 and wasm; use units.Pow",
	"math.Tanh":  "built on Exp; use units.Exp",
	"math.Cosh":  "built on Exp; use units.Exp",
	"math.Sinh":  "built on Exp; use units.Exp",
	"math/rand":  "draws differ from run to run; take a seeded math/rand/v2 source as an argument",

	// The tests of what starts none run without -race.
	goroutine:        "nothing here runs beside anything; callers share out the work",
	"sync.WaitGroup": "nothing here runs beside anything; callers share out the work",
}

const goroutine = "a go statement"

// impureIn names the forbidden things that a file uses.
func impureIn(f *ast.File) []string {
	var found []string
	packages := map[string]string{} // local name → import path
	for _, im := range f.Imports {
		at, err := strconv.Unquote(im.Path.Value)
		if err != nil {
			continue
		}
		name := path.Base(at)
		if name == "v2" {
			name = path.Base(path.Dir(at))
		}
		if im.Name != nil {
			name = im.Name.Name
		}
		packages[name] = at
		if _, ok := impure[at]; ok {
			found = append(found, at)
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		if _, ok := n.(*ast.GoStmt); ok {
			found = append(found, goroutine)
		}
		if s, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := s.X.(*ast.Ident); ok && packages[x.Name] != "" {
				what := packages[x.Name] + "." + s.Sel.Name
				_, listed := impure[what]
				// The functions of math/rand/v2 draw from a source that nobody can seed.
				if listed || (packages[x.Name] == "math/rand/v2" && !strings.HasPrefix(s.Sel.Name, "New") && ast.IsExported(s.Sel.Name) && !randType[s.Sel.Name]) {
					found = append(found, what)
				}
			}
		}
		return true
	})
	return found
}

var randType = map[string]bool{"Rand": true, "PCG": true, "ChaCha8": true, "Source": true, "Zipf": true}

func TestLogAndDomainArePure(t *testing.T) {
	tr := find(t)
	for _, dir := range packages(t) {
		if !below(dir, "sync") && !below(dir, "internal") {
			continue
		}
		for name, f := range parse(t, tr.Path(dir)) {
			for _, what := range impureIn(f) {
				why := impure[what]
				if why == "" {
					why = "it draws from a source that nobody can seed"
				}
				t.Errorf("%s/%s uses %s: %s", dir, name, what, why)
			}
		}
	}
}

func TestImpureThingsAreSeen(t *testing.T) {
	const source = `package p

import (
	m "math"
	"math/rand/v2"
	"os"
	"sync"
	"time"
)

func f(r *rand.Rand) { time.Now(); m.Exp(1); m.Sqrt(2); rand.IntN(3); r.IntN(3); rand.New(nil); os.Exit(1); time.Unix(0, 0) }

func g(w *sync.WaitGroup) { go f(nil); sync.OnceFunc(nil) }
`
	f, err := parser.ParseFile(token.NewFileSet(), "p.go", source, 0)
	if err != nil {
		t.Fatal(err)
	}
	got := impureIn(f)
	if want := []string{"os", "time.Now", "math.Exp", "math/rand/v2.IntN", "sync.WaitGroup", goroutine}; !slices.Equal(got, want) {
		t.Errorf("impureIn = %v, want %v", got, want)
	}
}
