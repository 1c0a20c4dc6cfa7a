package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"trayside/cmd/dev/tree"
)

func TestStagesStopAtTheFirstThatFails(t *testing.T) {
	var ran []string
	step := func(name string, err error) stage {
		return stage{name: name, mend: "Mend " + name + ".", run: func(_ context.Context, t tree.Tree) error {
			ran = append(ran, name)
			fmt.Fprintln(t.Out, "words of", name)
			return err
		}}
	}
	broken := errors.New("broken")
	shown := step("shown", nil)
	shown.show = true
	var out bytes.Buffer
	err := runStages(t.Context(), tree.Tree{Out: &out}, []stage{step("quiet", nil), shown, step("bad", broken), step("never", nil)})
	if !errors.Is(err, broken) || !strings.Contains(err.Error(), "Mend bad.") {
		t.Errorf("runStages = %v, want the error and what to do", err)
	}
	if want := []string{"quiet", "shown", "bad"}; !slices.Equal(ran, want) {
		t.Errorf("ran %v, want %v", ran, want)
	}
	for words, want := range map[string]bool{"words of quiet": false, "words of shown": true, "words of bad": true} {
		if strings.Contains(out.String(), words) != want {
			t.Errorf("output holds %q: %v, want %v", words, !want, want)
		}
	}
}

func TestUnknownTaskNamesTheKnownOnes(t *testing.T) {
	var out bytes.Buffer
	err := run(t.Context(), &out, []string{"tests"})
	if err == nil || !strings.Contains(err.Error(), `"tests"`) {
		t.Errorf("run = %v, want an error that names the task", err)
	}
	for _, k := range tasks() {
		if !strings.Contains(out.String(), k.name) {
			t.Errorf("usage does not name %s", k.name)
		}
	}
}

func TestNoTestsIsAFailure(t *testing.T) {
	tr := tree.Tree{Root: t.TempDir(), Out: &bytes.Buffer{}}
	if err := os.MkdirAll(tr.Path("pwa/src"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := testUnits(t.Context(), tr); err == nil {
		t.Error("testUnits passed with no tests to run")
	}
}

func TestEveryPackageIsTestedOnce(t *testing.T) {
	for _, dir := range packages(t) {
		count := 0
		for _, pattern := range slices.Concat(purePackages, sharedPackages) {
			if below("./"+dir, strings.TrimSuffix(pattern, "/...")) {
				count++
			}
		}
		if count != 1 {
			t.Errorf("%s is tested %d times by go test, want once", dir, count)
		}
	}
}

func TestTestFilesAreFoundBelowTheirFolder(t *testing.T) {
	tr := tree.Tree{Root: t.TempDir()}
	for _, f := range []string{"pwa/src/b.test.ts", "pwa/src/deep/a.test.ts", "pwa/src/a.ts", "pwa/e2e/c.test.ts"} {
		if _, err := tr.WriteFile(f, nil); err != nil {
			t.Fatal(err)
		}
	}
	got, err := tsFiles(tr, "src", ".test.ts")
	if want := []string{"src/b.test.ts", "src/deep/a.test.ts"}; err != nil || !slices.Equal(got, want) {
		t.Errorf("tsFiles = %v, %v; want %v", got, err, want)
	}
}

func TestBrowserIsTheOneThatWasNamed(t *testing.T) {
	at := filepath.Join(t.TempDir(), "browser")
	if err := os.WriteFile(at, []byte("#!/bin/sh\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	t.Setenv(chromium.variable, at)
	if got, err := chromium.find(); got != at || err != nil {
		t.Errorf("find = %q, %v; want %q", got, err, at)
	}
	t.Setenv(chromium.variable, at+"-not-there")
	if got, err := chromium.find(); err == nil {
		t.Errorf("find = %q for a browser that is not there, want an error", got)
	}
}

func TestStaleTypesAreSeen(t *testing.T) {
	here := find(t)
	if err := checkTypes(here); err != nil {
		t.Error(err)
	}
	// The same sources with a file that lacks a line.
	tr := tree.Tree{Root: t.TempDir()}
	for _, dir := range []string{"internal", "sync", "pwa/engine"} {
		if err := os.MkdirAll(filepath.Dir(tr.Path(dir)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.CopyFS(tr.Path(dir), os.DirFS(here.Path(dir))); err != nil {
			t.Fatal(err)
		}
	}
	b, err := os.ReadFile(here.Path(typesFile))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := tr.WriteFile(typesFile, b[:len(b)-10]); err != nil {
		t.Fatal(err)
	}
	if err := checkTypes(tr); !errors.Is(err, errStale) {
		t.Errorf("checkTypes of a shortened file = %v, want %v", err, errStale)
	}
}
