package build

import (
	"context"
	"os"
	"path/filepath"
	"strings"

	"trayside/cmd/dev/tree"
)

// wasmEnv is set for one child process at a time: with it in this process's own
// environment, the next "go run" could not start what it built.
var wasmEnv = []string{"GOOS=js", "GOARCH=wasm"}

// EngineFlags compile the engine with inlining only where the time goes: in the
// fold and its sums, the colony and its arithmetic. Everywhere it would make the
// engine 8 % larger to fetch; nowhere, a cold start with 20,000 entries takes
// twice as long.
var EngineFlags = []string{
	"-trimpath", "-ldflags=-s -w", "-gcflags=all=-l",
	"-gcflags=trayside/sync/...=", "-gcflags=trayside/internal/colony=",
	"-gcflags=trayside/internal/record=", "-gcflags=trayside/internal/units=",
}

// buildEngine compiles the engine and puts Go's loader beside it, from the same
// toolchain: the two must match.
func buildEngine(ctx context.Context, t tree.Tree) (file, error) {
	out := t.Path(WorkDir + "/engine.wasm")
	if err := t.Run(ctx, tree.Cmd{
		Env: wasmEnv, Name: "go",
		Args: append(append([]string{"build"}, EngineFlags...), "-o", out, "./pwa/engine"),
	}); err != nil {
		return file{}, err
	}
	root, err := GoRoot(ctx, t)
	if err != nil {
		return file{}, err
	}
	loader, err := os.ReadFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return file{}, err
	}
	if _, err := t.WriteFile(WorkDir+"/wasm_exec.js", loader); err != nil {
		return file{}, err
	}
	body, err := os.ReadFile(out)
	if err != nil {
		return file{}, err
	}
	return file{path: hashed("engine.wasm", body), logical: "engine.wasm", part: "engine", body: body, kept: true}, nil
}

// GoRoot returns the folder of the Go toolchain in use.
func GoRoot(ctx context.Context, t tree.Tree) (string, error) {
	root, err := t.Output(ctx, tree.Cmd{Name: "go", Args: []string{"env", "GOROOT"}})
	return strings.TrimSpace(root), err
}
