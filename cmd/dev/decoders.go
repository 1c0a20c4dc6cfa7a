package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"

	"trayside/cmd/dev/build"
	"trayside/cmd/dev/tree"
)

// benchDecoders compares what could read labels where a browser can't: cmd/dev/scan
// makes the frames, each candidate reads them as a phone would run it, and
// pwa/e2e/decoders.ts prints the table.
func benchDecoders(ctx context.Context, t tree.Tree) error {
	dir, err := os.MkdirTemp("", "trayside-scan-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if err := genAnyWeight(ctx, t); err != nil {
		return err
	}
	in := func(name string) string { return filepath.Join(dir, name) }
	if err := t.Run(ctx, tree.Cmd{Name: "go", Args: []string{"run", "./cmd/dev/scan", "render", dir}}); err != nil {
		return err
	}
	if err := readInGo(ctx, t, dir); err != nil {
		return err
	}
	if err := toWeigh(ctx, t, dir); err != nil {
		return err
	}
	made, err := build.Bundle(ctx, t, "bench", []string{"e2e/decoders.ts"})
	if err != nil {
		return err
	}
	if err := t.Run(ctx, tree.Cmd{Dir: "pwa", Name: "go", Args: []string{
		"tool", "esbuild", "node_modules/jsqr/dist/jsQR.js", "--minify", "--outfile=" + in("jsqr.js"), "--log-level=warning",
	}}); err != nil {
		return err
	}
	return t.Run(ctx, tree.Cmd{Name: "node", Args: append(made, dir)})
}

// readInGo reads the frames by gozxing as js/wasm, which is how the engine would.
func readInGo(ctx context.Context, t tree.Tree, dir string) error {
	root, err := build.GoRoot(ctx, t)
	if err != nil {
		return err
	}
	program := filepath.Join(dir, "scan.wasm")
	if err := t.Run(ctx, tree.Cmd{Env: wasmEnv, Name: "go", Args: []string{"build", "-o", program, "./cmd/dev/scan"}}); err != nil {
		return err
	}
	loader := filepath.Join(root, "lib", "wasm", "wasm_exec_node.js")
	return t.Run(ctx, tree.Cmd{Small: true, Name: "node", Args: []string{"--stack-size=65536", loader, program, "read", dir}})
}

// withReader makes an engine that holds gozxing too: a file that is not there.
const withReader = `//go:build js && wasm

package main

import (
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

func init() {
	read := func(pix []byte, w, h int) string {
		source, err := gozxing.NewPlanarYUVLuminanceSource(pix, w, h, 0, 0, w, h, false)
		if err != nil {
			return ""
		}
		bmp, err := gozxing.NewBinaryBitmap(gozxing.NewHybridBinarizer(source))
		if err != nil {
			return ""
		}
		r, err := qrcode.NewQRCodeReader().Decode(bmp, nil)
		if err != nil {
			return ""
		}
		return r.GetText()
	}
	println(read(make([]byte, 400), 20, 20))
}
`

// toWeigh puts what each candidate would have a phone fetch into dir.
func toWeigh(ctx context.Context, t tree.Tree, dir string) error {
	b, err := os.ReadFile(t.Path("pwa/dist/manifest.json"))
	if err != nil {
		return err
	}
	var at map[string]string
	if err := json.Unmarshal(b, &at); err != nil {
		return err
	}
	for _, name := range []string{"reader.js", "reader.wasm", "engine.wasm"} {
		body, err := os.ReadFile(t.Path("pwa/dist/" + at[name]))
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(dir, name), body, 0o644); err != nil {
			return err
		}
	}
	source := filepath.Join(dir, "reader.go")
	if err := os.WriteFile(source, []byte(withReader), 0o644); err != nil {
		return err
	}
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {t.Path("pwa/engine/reader.go"): source}})
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, "overlay.json"), overlay, 0o644); err != nil {
		return err
	}
	return t.Run(ctx, tree.Cmd{
		Env: wasmEnv, Name: "go",
		Args: append(append([]string{"build", "-overlay", filepath.Join(dir, "overlay.json")}, build.EngineFlags...), "-o", filepath.Join(dir, "engine-with.wasm"), "./pwa/engine"),
	})
}
