package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"trayside/cmd/dev/build"
	"trayside/cmd/dev/tree"
)

// testAll is the one list of what must hold. Continuous integration runs it and
// nothing else.
func testAll(ctx context.Context, t tree.Tree, _ []string) error {
	stages := []stage{
		{name: "programs that tests need", mend: "Install them and start again.", show: true, run: needPrograms},
		{
			name: "the phone app", mend: "See which step of the build failed: go run ./cmd/dev gen", show: true,
			// Stale types must fail here, not be mended in passing.
			run: func(ctx context.Context, t tree.Tree) error {
				return errors.Join(checkTypes(t), build.Run(ctx, t))
			},
		},
	}
	stages = append(stages, checkStages()...)
	stages = append(stages,
		stage{
			name: "go test, log and domain", mend: "Run the package named alone.",
			run: runs(tree.Cmd{Name: "go", Args: append([]string{"test"}, purePackages...)}),
		},
		stage{
			name: "go test -race, the rest", mend: "Run the package named alone; -race needs a C compiler.",
			run: runs(tree.Cmd{Env: []string{"CGO_ENABLED=1"}, Name: "go", Args: append([]string{"test", "-race"}, sharedPackages...)}),
		},
		stage{name: "go test, js/wasm", mend: "Run natively first; what fails only here differs on the phone.", run: testWasm},
		stage{name: "TypeScript unit tests", mend: "The test's name says what failed.", run: testUnits},
		stage{name: "browser tests", mend: "One story alone: see DEVELOPERS.md, \"How to test\".", run: testBrowser},
	)
	return runStages(ctx, t, stages)
}

// testWasm runs the engine's packages as the phone runs them.
func testWasm(ctx context.Context, t tree.Tree) error {
	return runWasm(ctx, t, wasmPackages...)
}

// runWasm is go test as js/wasm under Node, which gets a small environment,
// because Go's loader refuses one past a few kilobytes.
func runWasm(ctx context.Context, t tree.Tree, args ...string) error {
	root, err := build.GoRoot(ctx, t)
	if err != nil {
		return err
	}
	loader := filepath.Join(root, "lib", "wasm", "wasm_exec_node.js")
	return t.Run(ctx, tree.Cmd{
		Env: wasmEnv, Small: true, Name: "go",
		Args: append([]string{"test", "-exec", fmt.Sprintf("node --stack-size=65536 %q", loader)}, args...),
	})
}

func testUnits(ctx context.Context, t tree.Tree) error {
	files, err := tsFiles(t, "src", ".test.ts")
	if err != nil {
		return err
	}
	return runNodeTests(ctx, t, "units", files, nil)
}

// testBrowser builds the program once and lets the stories start and stop it.
func testBrowser(ctx context.Context, t tree.Tree) error {
	env, err := browserEnv(ctx, t)
	if err != nil {
		return err
	}
	other, err := firefox.find()
	if err != nil {
		return err
	}
	env = append(env, firefox.variable+"="+other)
	files, err := tsFiles(t, "e2e", ".test.ts")
	if err != nil {
		return err
	}
	return runNodeTests(ctx, t, "e2e", files, env)
}

func runNodeTests(ctx context.Context, t tree.Tree, name string, files, env []string) error {
	if len(files) == 0 {
		return fmt.Errorf("no tests found for %s; a check that checks nothing must not pass", name)
	}
	made, err := build.Bundle(ctx, t, name, files)
	if err != nil {
		return err
	}
	// One file at a time: each story starts servers and browsers of its own.
	args := append([]string{"--test", "--test-concurrency=1", "--test-timeout=600000", "--test-reporter=spec"}, made...)
	return t.Run(ctx, tree.Cmd{Dir: "pwa", Env: env, Name: "node", Args: args})
}

// browserEnv builds the program and says where it and the browser are.
func browserEnv(ctx context.Context, t tree.Tree) ([]string, error) {
	program, err := buildProgram(ctx, t)
	if err != nil {
		return nil, err
	}
	browser, err := chromium.find()
	if err != nil {
		return nil, err
	}
	return []string{"TRAYSIDE_BIN=" + program, chromium.variable + "=" + browser}, nil
}

// tsFiles returns the files below pwa/dir that end in suffix, as paths below pwa.
func tsFiles(t tree.Tree, dir, suffix string) ([]string, error) {
	var files []string
	err := filepath.WalkDir(t.Path("pwa/"+dir), func(at string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(at, suffix) {
			return err
		}
		rel, err := filepath.Rel(t.Path("pwa"), at)
		files = append(files, filepath.ToSlash(rel))
		return err
	})
	sort.Strings(files)
	return files, err
}
