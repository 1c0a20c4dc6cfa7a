// Package tree knows where the module lies and runs other programs in it. Every
// other part of cmd/dev asks it for paths and for child processes, so that the
// tool works from any folder and on any system.
package tree

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Tree is the module's folder and where the output of child processes goes.
type Tree struct {
	Root string
	Out  io.Writer
}

// Find asks the go command where the module is.
func Find(ctx context.Context, out io.Writer) (Tree, error) {
	b, err := exec.CommandContext(ctx, "go", "env", "GOMOD").Output()
	if err != nil {
		return Tree{}, fmt.Errorf("ask the go command for the module: %w", err)
	}
	mod := strings.TrimSpace(string(b))
	if mod == "" || mod == os.DevNull {
		return Tree{}, fmt.Errorf("no go.mod here or above; run this inside the repository")
	}
	return Tree{Root: filepath.Dir(mod), Out: out}, nil
}

// Path joins a slash-separated path onto the root.
func (t Tree) Path(rel string) string { return filepath.Join(t.Root, filepath.FromSlash(rel)) }

// Cmd is one run of another program.
type Cmd struct {
	Dir   string   // relative to the root, "" for the root itself
	Env   []string // added to this process's own
	Small bool     // keep only what programs cannot do without of this process's environment
	Name  string
	Args  []string
}

// String returns the command as a person would type it.
func (c Cmd) String() string {
	return strings.Join(append(append(append([]string(nil), c.Env...), c.Name), c.Args...), " ")
}

func (t Tree) command(ctx context.Context, c Cmd) *exec.Cmd {
	cmd := exec.CommandContext(ctx, c.Name, c.Args...)
	cmd.Dir = t.Path(c.Dir)
	cmd.Env = os.Environ()
	if c.Small {
		cmd.Env = small(cmd.Env)
	}
	cmd.Env = append(cmd.Env, c.Env...)
	return cmd
}

// small keeps where programs, homes, caches and temporary files are, and what
// the go command is told.
func small(env []string) []string {
	var kept []string
	for _, e := range env {
		name, _, _ := strings.Cut(strings.ToUpper(e), "=")
		switch name {
		case "PATH", "HOME", "USERPROFILE", "LOCALAPPDATA", "APPDATA", "XDG_CACHE_HOME", "SYSTEMROOT", "TMPDIR", "TMP", "TEMP":
			kept = append(kept, e)
		default:
			if strings.HasPrefix(name, "GO") {
				kept = append(kept, e)
			}
		}
	}
	return kept
}

// Run runs c with its output shown. The error names the command.
func (t Tree) Run(ctx context.Context, c Cmd) error {
	cmd := t.command(ctx, c)
	cmd.Stdout, cmd.Stderr = t.Out, t.Out
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%s: %w", c, err)
	}
	return nil
}

// Output runs c and returns what it wrote to its standard output; what it wrote
// to its standard error is in the error.
func (t Tree) Output(ctx context.Context, c Cmd) (string, error) {
	cmd := t.command(ctx, c)
	var out, fault bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &fault
	if err := cmd.Run(); err != nil {
		return out.String(), fmt.Errorf("%s: %w\n%s", c, err, fault.Bytes())
	}
	return out.String(), nil
}

// WriteFile writes b to the path unless the file already holds it, and reports
// whether it wrote: an unchanged file keeps its time, and nothing that depends
// on it is built again.
func (t Tree) WriteFile(rel string, b []byte) (wrote bool, err error) {
	path := t.Path(rel)
	if old, err := os.ReadFile(path); err == nil && bytes.Equal(old, b) {
		return false, nil
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return false, err
	}
	return true, os.WriteFile(path, b, 0o644)
}
