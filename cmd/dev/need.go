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
	{"zbarimg", "zbar-tools"},      // reads the printed labels
	{"pdftoppm", "poppler-utils"},  // draws the label sheet
	{"pdftotext", "poppler-utils"}, // finds the words on it
}

// browserEnvName lets a person use a browser that is not called chromium.
const browserEnvName = "TRAYSIDE_CHROMIUM"

func missing() []need {
	var out []need
	for _, n := range needs {
		if n.program == "chromium" {
			if _, err := findBrowser(); err == nil {
				continue
			}
		} else if _, err := exec.LookPath(n.program); err == nil {
			continue
		}
		out = append(out, n)
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
		return fmt.Errorf("tests need %s; install them (on Debian: apt-get install %s), or set %s to a Chromium that is here",
			strings.Join(names, ", "), strings.Join(pkgs, " "), browserEnvName)
	}
	fmt.Fprintln(t.Out, "installing", strings.Join(pkgs, " "))
	env := []string{"DEBIAN_FRONTEND=noninteractive"}
	if err := t.Run(ctx, tree.Cmd{Env: env, Name: "apt-get", Args: []string{"update", "-q"}}); err != nil {
		return err
	}
	return t.Run(ctx, tree.Cmd{Env: env, Name: "apt-get", Args: append([]string{"install", "-q", "-y", "--no-install-recommends"}, pkgs...)})
}

func findBrowser() (string, error) {
	if at := os.Getenv(browserEnvName); at != "" {
		return exec.LookPath(at)
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if at, err := exec.LookPath(name); err == nil {
			return at, nil
		}
	}
	return "", fmt.Errorf("no Chromium found; install one or set %s to it", browserEnvName)
}
