// Package build makes the phone app: the engine as WebAssembly, the page, the
// engine's worker and the service worker, the icons and the list of what is kept
// without a network, all into pwa/dist, each with its compressed twins.
//
// Run is the way in. Nothing it makes is kept in git. A second run with nothing
// changed is quick, because the go command, the twins and the npm folder are each
// reused when their inputs are the same.
package build

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path"
	"sort"
	"strings"

	"trayside/cmd/dev/tree"
)

// Folders, relative to the module's root.
const (
	pwaDir  = "pwa"
	distDir = "pwa/dist"
	// WorkDir is where in-between files lie. It is inside pwa so that bundles
	// which leave a library outside find it in pwa/node_modules.
	WorkDir = "pwa/.build"
)

// Budget is the most that a phone may fetch on its first visit, compressed, in
// bytes. The figure is ours: a minute on a poor cellar connection of 200 kbit/s. The
// main job alone was held to 1.4 MB; the ensemble, trouble, batches and names in
// two languages, which must answer without a network, added the rest.
const Budget = 1_500_000

// ErrBudget is what Run returns when everything is built but weighs too much.
var ErrBudget = errors.New("build: the first visit is over its budget")

// file is one file of the app to be.
type file struct {
	path    string // in dist, with slashes: "assets/main-0a1b2c3d.js"
	logical string // the name others know it by: "main.js"; "" if none asks for it
	part    string // the row of the size table it counts in
	body    []byte
	kept    bool // in the list of what is kept without a network
	later   bool // fetched after the first visit, by those who need it
	first   bool // imported by the page's script, so wanted together with it
}

// Run builds everything and writes the sizes to t.Out. The error is ErrBudget when
// all is built but the first visit is over Budget.
func Run(ctx context.Context, t tree.Tree) error {
	if err := Packages(ctx, t); err != nil {
		return err
	}
	if err := os.MkdirAll(t.Path(WorkDir), 0o755); err != nil {
		return err
	}
	engine, err := buildEngine(ctx, t)
	if err != nil {
		return err
	}
	files := []file{engine}
	worker, used, err := bundleWorker(ctx, t, "/"+engine.path)
	if err != nil {
		return err
	}
	files = append(files, worker)
	reader, usedByReader, err := bundleReader(ctx, t)
	if err != nil {
		return err
	}
	files = append(files, reader...)
	used = append(used, usedByReader...)
	words, usedByWords, err := bundleWords(ctx, t)
	if err != nil {
		return err
	}
	files = append(files, words)
	used = append(used, usedByWords...)
	page, usedByPage, err := bundlePage(ctx, t, "/"+worker.path, reader, words)
	if err != nil {
		return err
	}
	glance, usedByGlance, err := bundleGlance(ctx, t)
	if err != nil {
		return err
	}
	files = append(append(files, page...), glance)
	used = append(used, usedByGlance...)
	icons, err := drawIcons()
	if err != nil {
		return err
	}
	files = append(files, icons...)
	shell, err := writeShell(t, files)
	if err != nil {
		return err
	}
	files = append(files, shell...)
	sw, usedBySW, err := bundleServiceWorker(ctx, t, files)
	if err != nil {
		return err
	}
	files = append(files, sw)
	notices, err := licences(ctx, t, append(append(used, usedByPage...), usedBySW...))
	if err != nil {
		return err
	}
	files = append(files, notices, logicalNames(files))
	sizes, err := writeDist(ctx, t, files)
	if err != nil {
		return err
	}
	return report(t.Out, files, sizes)
}

// hashed returns the path of a file whose name changes with its content.
func hashed(logical string, body []byte) string {
	ext := path.Ext(logical)
	return "assets/" + strings.TrimSuffix(logical, ext) + "-" + digest(body)[:10] + ext
}

// Packages runs npm ci when node_modules is missing or older than the lock file.
func Packages(ctx context.Context, t tree.Tree) error {
	lock, err := os.Stat(t.Path(pwaDir + "/package-lock.json"))
	if err != nil {
		return fmt.Errorf("build: %w; the lock file belongs to the repository, bring it back from git", err)
	}
	// npm writes this file last.
	if done, err := os.Stat(t.Path(pwaDir + "/node_modules/.package-lock.json")); err == nil && !done.ModTime().Before(lock.ModTime()) {
		return nil
	}
	fmt.Fprintln(t.Out, "npm ci (the phone app's libraries)")
	if err := t.Run(ctx, tree.Cmd{Dir: pwaDir, Name: "npm", Args: []string{"ci", "--ignore-scripts", "--no-audit", "--no-fund"}}); err != nil {
		return fmt.Errorf("%w; Node 20 or later and a network are needed for this one step", err)
	}
	return nil
}

func logicalNames(files []file) file {
	names := map[string]string{}
	for _, f := range files {
		if f.logical != "" {
			names[f.logical] = f.path
		}
	}
	return file{path: "manifest.json", body: indented(names), part: ""}
}

func sorted(files []file) []file {
	out := append([]file(nil), files...)
	sort.Slice(out, func(i, j int) bool { return out[i].path < out[j].path })
	return out
}
