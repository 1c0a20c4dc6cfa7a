package build

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"trayside/cmd/dev/tree"
)

// compiled names what a library holds as machine code of others, under a licence
// whose text it does not bring: the Apache License 2.0, which is Trayside's own.
var compiled = map[string]string{
	"node_modules/zxing-wasm": "ZXing-C++ (github.com/zxing-cpp/zxing-cpp), compiled into zxing-wasm (Apache-2.0)",
}

// licences gathers the notices of every library in the app and in the program,
// from the libraries themselves. inputs are the files that the bundles read,
// relative to pwa.
func licences(ctx context.Context, t tree.Tree, inputs []string) (file, error) {
	texts := map[string]string{}
	for _, in := range inputs {
		dir := packageDir(in)
		if dir == "" || texts[dir] != "" {
			continue
		}
		title, err := npmTitle(t.Path(pwaDir + "/" + dir + "/package.json"))
		if err != nil {
			return file{}, err
		}
		text, err := notice(t.Path(pwaDir + "/" + dir))
		if err != nil {
			return file{}, err
		}
		texts[dir] = title + "\n\n" + text
		if inside, ok := compiled[dir]; ok {
			own, err := notice(t.Root)
			if err != nil {
				return file{}, err
			}
			texts[dir+" "] = inside + "\n\n" + own
		}
	}
	root, err := GoRoot(ctx, t)
	if err != nil {
		return file{}, err
	}
	text, err := notice(root)
	if err != nil {
		return file{}, err
	}
	texts["go"] = "The Go standard library and its loader for WebAssembly\n\n" + text
	modules, err := t.Output(ctx, tree.Cmd{Name: "go", Args: []string{
		"list", "-deps", "-f", `{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}|{{.Dir}}{{end}}{{end}}`, "./cmd/trayside",
	}})
	if err != nil {
		return file{}, err
	}
	for _, line := range strings.Split(strings.TrimSpace(modules), "\n") {
		title, dir, ok := strings.Cut(line, "|")
		if !ok || texts[title] != "" {
			continue
		}
		if text, err = notice(dir); err != nil {
			return file{}, err
		}
		texts[title] = title + "\n\n" + text
	}
	var keys []string
	for k := range texts {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	var b strings.Builder
	b.WriteString("Trayside is under the Apache License 2.0. It holds these libraries, each under its own licence.\n")
	for _, k := range keys {
		b.WriteString("\n" + strings.Repeat("-", 72) + "\n" + texts[k])
	}
	return file{path: "licences.txt", logical: "licences.txt", body: []byte(b.String())}, nil
}

// packageDir returns the folder of the npm package that a bundled file is from,
// or "".
func packageDir(in string) string {
	const mark = "node_modules/"
	i := strings.LastIndex(in, mark)
	if i < 0 {
		return ""
	}
	parts := strings.Split(in[i+len(mark):], "/")
	n := 1
	if strings.HasPrefix(parts[0], "@") {
		n = 2
	}
	return in[:i+len(mark)] + strings.Join(parts[:n], "/")
}

func npmTitle(path string) (string, error) {
	b, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	var p struct{ Name, Version, License string }
	if err := json.Unmarshal(b, &p); err != nil {
		return "", fmt.Errorf("build: read %s: %w", path, err)
	}
	return fmt.Sprintf("%s %s (%s)", p.Name, p.Version, p.License), nil
}

// notice returns the text of the licence in dir and of a notice beside it.
func notice(dir string) (string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for _, e := range entries {
		upper := strings.ToUpper(e.Name())
		stem, _, _ := strings.Cut(upper, ".")
		if stem != "LICENSE" && stem != "LICENCE" && stem != "COPYING" && stem != "NOTICE" || e.IsDir() {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return "", err
		}
		b.WriteString(strings.ReplaceAll(strings.TrimSpace(string(text)), "\r\n", "\n") + "\n")
	}
	if b.Len() == 0 {
		return "", fmt.Errorf("build: no licence text in %s; a library without one may not be shipped", filepath.Base(dir))
	}
	return b.String(), nil
}
