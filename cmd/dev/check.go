package main

import (
	"context"
	"errors"
	"strings"

	"trayside/cmd/dev/build"
	"trayside/cmd/dev/tree"
)

// goFolders hold all Go code of the module; the phone app's libraries lie outside.
var goFolders = []string{"cmd", "internal", "pwa/embed.go", "pwa/engine", "server", "sync"}

// purePackages start no goroutine, which pure_test.go sees to: alone they have no
// race, and the simulations among them would take minutes to say so. The others
// are tested with -race, and what they call of these with them.
var (
	purePackages   = []string{"./sync/...", "./internal/..."}
	sharedPackages = []string{"./cmd/...", "./server/...", "./pwa/..."}
)

// wasmPackages are built into the engine, so they are vetted and tested there too.
var wasmPackages = append([]string{"./pwa/engine/..."}, purePackages...)

var wasmEnv = []string{"GOOS=js", "GOARCH=wasm"}

func check(ctx context.Context, t tree.Tree, _ []string) error {
	return runStages(ctx, t, checkStages())
}

func checkStages() []stage {
	stages := []stage{
		{name: "libraries (npm ci)", mend: "Look at pwa/package-lock.json and the network.", run: build.Packages},
		{
			name: "types for TypeScript", mend: "Run: go run ./cmd/dev gen",
			run: func(_ context.Context, t tree.Tree) error { return checkTypes(t) },
		},
		{name: "gofmt", mend: "Run gofmt -w on the files named.", run: gofmt},
		{name: "go vet", mend: "Mend what vet names.", run: runs(tree.Cmd{Name: "go", Args: []string{"vet", "./..."}})},
		{
			name: "go vet, js/wasm", mend: "Mend what vet names; it sees the engine as the phone does.",
			run: runs(tree.Cmd{Env: wasmEnv, Name: "go", Args: append([]string{"vet"}, wasmPackages...)}),
		},
		{
			name: "staticcheck", mend: "Mend what it names; its codes are explained by: go tool -modfile=cmd/dev/tools.mod staticcheck -explain CODE",
			run: runs(tree.Cmd{Name: "go", Args: []string{"tool", "-modfile=cmd/dev/tools.mod", "staticcheck", "./..."}}),
		},
	}
	for _, part := range []string{"page", "worker", "sw", "test"} {
		stages = append(stages, stage{
			name: "tsc, " + part, mend: "Mend the types named.",
			run: runs(npmTool("typescript/bin/tsc", "--project", "tsconfig."+part+".json")),
		})
	}
	return append(stages, stage{
		name: "biome", mend: "Run in pwa: npx biome check --write",
		run: runs(npmTool("@biomejs/biome/bin/biome", "check", "--error-on-warnings")),
	})
}

// runs makes a stage's step of a command.
func runs(c tree.Cmd) func(context.Context, tree.Tree) error {
	return func(ctx context.Context, t tree.Tree) error { return t.Run(ctx, c) }
}

// npmTool runs a library's program by its script, so that no shell is asked.
func npmTool(script string, args ...string) tree.Cmd {
	return tree.Cmd{Dir: "pwa", Name: "node", Args: append([]string{"node_modules/" + script}, args...)}
}

func gofmt(ctx context.Context, t tree.Tree) error {
	out, err := t.Output(ctx, tree.Cmd{Name: "gofmt", Args: append([]string{"-l"}, goFolders...)})
	if err != nil {
		return err
	}
	if out != "" {
		return errors.New("not formatted: " + strings.Join(strings.Fields(out), ", "))
	}
	return nil
}
