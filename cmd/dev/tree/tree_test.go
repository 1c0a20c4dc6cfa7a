package tree_test

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"trayside/cmd/dev/tree"
)

func TestFindGivesTheFolderOfTheModule(t *testing.T) {
	var out bytes.Buffer
	tr, err := tree.Find(t.Context(), &out)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(tr.Path("cmd/dev/tree/tree.go")); err != nil {
		t.Errorf("the module found at %s does not hold this package: %v", tr.Root, err)
	}
}

func TestFailureNamesTheCommand(t *testing.T) {
	tr := tree.Tree{Root: t.TempDir(), Out: &bytes.Buffer{}}
	err := tr.Run(t.Context(), tree.Cmd{Env: []string{"GOFLAGS=-mod=mod"}, Name: "go", Args: []string{"no-such-task"}})
	if err == nil || !strings.Contains(err.Error(), "GOFLAGS=-mod=mod go no-such-task") {
		t.Errorf("Run = %v, want an error with the command as typed", err)
	}
	_, err = tr.Output(t.Context(), tree.Cmd{Name: "go", Args: []string{"no-such-task"}})
	if err == nil || !strings.Contains(err.Error(), "unknown command") {
		t.Errorf("Output = %v, want an error with what the command said", err)
	}
}

func TestSmallEnvironmentKeepsOnlyWhatIsNeeded(t *testing.T) {
	t.Setenv("TRAYSIDE_HUGE", strings.Repeat("x", 20_000))
	t.Setenv("GOFLAGS", "-modcacherw")
	tr := tree.Tree{Root: t.TempDir()}
	got, err := tr.Output(t.Context(), tree.Cmd{Small: true, Env: []string{"ADDED=1"}, Name: "node", Args: []string{"-p", `Object.keys(process.env).join(" ")`}})
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]bool{"TRAYSIDE_HUGE": false, "PATH": true, "GOFLAGS": true, "ADDED": true} {
		if strings.Contains(got, name) != want {
			t.Errorf("the child sees %s: %v, want %v", name, !want, want)
		}
	}
}

func TestUnchangedFileKeepsItsTime(t *testing.T) {
	tr := tree.Tree{Root: t.TempDir()}
	if wrote, err := tr.WriteFile("a/b.txt", []byte("one")); !wrote || err != nil {
		t.Fatalf("WriteFile = %v, %v; want true, nil", wrote, err)
	}
	old := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	if err := os.Chtimes(tr.Path("a/b.txt"), old, old); err != nil {
		t.Fatal(err)
	}
	if wrote, err := tr.WriteFile("a/b.txt", []byte("one")); wrote || err != nil {
		t.Errorf("WriteFile of the same = %v, %v; want false, nil", wrote, err)
	}
	if i, err := os.Stat(tr.Path("a/b.txt")); err != nil || !i.ModTime().Equal(old) {
		t.Errorf("the unchanged file has a new time: %v, %v", i, err)
	}
	if wrote, err := tr.WriteFile("a/b.txt", []byte("two")); !wrote || err != nil {
		t.Errorf("WriteFile of another = %v, %v; want true, nil", wrote, err)
	}
}
