package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"

	"trayside/cmd/dev/tree"
)

// need is a program that tests call, and the Debian package that brings it.
type need struct{ program, pkg string }

var needs = []need{
	{"chromium", "chromium"},       // the browser stories
	{"firefox-esr", "firefox-esr"}, // one story again, in another engine
	{"zbarimg", "zbar-tools"},      // reads the printed labels
	{"pdftoppm", "poppler-utils"},  // draws the label sheet
	{"pdftotext", "poppler-utils"}, // finds the words on it
}

// browser is a browser that stories run in. Its variable lets a person use one
// that goes by another name.
type browser struct {
	variable string
	names    []string // the Debian program first
}

var (
	chromium = browser{"TRAYSIDE_CHROMIUM", []string{"chromium", "chromium-browser", "google-chrome", "chrome"}}
	firefox  = browser{"TRAYSIDE_FIREFOX", []string{"firefox-esr", "firefox"}}
)

// find returns where the browser is.
func (b browser) find() (string, error) {
	if at := os.Getenv(b.variable); at != "" {
		return exec.LookPath(at)
	}
	for _, name := range b.names {
		if at, err := exec.LookPath(name); err == nil {
			return at, nil
		}
	}
	return "", fmt.Errorf("no %s found; install one or set %s to it", b.names[0], b.variable)
}

// here reports whether a program, or the browser of that name, is on the machine.
func here(program string) bool {
	for _, b := range []browser{chromium, firefox} {
		if b.names[0] == program {
			_, err := b.find()
			return err == nil
		}
	}
	_, err := exec.LookPath(program)
	return err == nil
}

func missing() []need {
	var out []need
	for _, n := range needs {
		if !here(n.program) {
			out = append(out, n)
		}
	}
	return out
}

// needPrograms installs what is missing where that is possible without asking:
// as root on Debian. Anywhere else it says what to install.
func needPrograms(ctx context.Context, t tree.Tree) error {
	lacking := missing()
	if len(lacking) == 0 {
		return nil
	}
	var names, pkgs []string
	for _, n := range lacking {
		names = append(names, n.program)
		if len(pkgs) == 0 || pkgs[len(pkgs)-1] != n.pkg {
			pkgs = append(pkgs, n.pkg)
		}
	}
	_, debian := exec.LookPath("apt-get")
	if debian != nil || os.Geteuid() != 0 {
		return fmt.Errorf("tests need %s; install them (on Debian: apt-get install %s), or set %s and %s to browsers that are here",
			strings.Join(names, ", "), strings.Join(pkgs, " "), chromium.variable, firefox.variable)
	}
	fmt.Fprintln(t.Out, "installing", strings.Join(pkgs, " "))
	env := []string{"DEBIAN_FRONTEND=noninteractive"}
	if err := t.Run(ctx, tree.Cmd{Env: env, Name: "apt-get", Args: []string{"update", "-q"}}); err != nil {
		return err
	}
	return t.Run(ctx, tree.Cmd{Env: env, Name: "apt-get", Args: append([]string{"install", "-q", "-y", "--no-install-recommends"}, pkgs...)})
}
