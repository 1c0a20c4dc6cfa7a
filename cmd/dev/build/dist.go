package build

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"trayside/cmd/dev/tree"
)

// twin compresses with Node's own brotli, the one strong compressor that is
// already here: the arguments are pairs of a source and a target.
const twin = `
const { brotliCompressSync, constants } = require("node:zlib");
const { readFileSync, writeFileSync } = require("node:fs");
for (let i = 1; i < process.argv.length; i += 2) {
	const body = readFileSync(process.argv[i]);
	writeFileSync(process.argv[i + 1], brotliCompressSync(body, { params: {
		[constants.BROTLI_PARAM_QUALITY]: 11,
		[constants.BROTLI_PARAM_LGWIN]: 24,
		[constants.BROTLI_PARAM_SIZE_HINT]: body.length,
	} }));
}`

// size is what one file weighs, in bytes.
type size struct{ raw, gz, br int64 }

// sent is what a current browser fetches for it.
func (s size) sent() int64 {
	if s.br > 0 {
		return s.br
	}
	return s.raw
}

// compressible reports whether a file gets twins; fonts and pictures are
// compressed already.
func compressible(name string) bool {
	switch path.Ext(name) {
	case ".woff2", ".png":
		return false
	}
	return true
}

// writeDist puts the files and their twins into dist and takes out what is no
// longer made. Twins are kept by content, so that the slow one is made once.
func writeDist(ctx context.Context, t tree.Tree, files []file) (map[string]size, error) {
	if err := makeTwins(ctx, t, files); err != nil {
		return nil, err
	}
	sizes := map[string]size{}
	wanted := map[string]bool{"placeholder.txt": true}
	put := func(name string, body []byte) error {
		wanted[name] = true
		_, err := t.WriteFile(distDir+"/"+name, body)
		return err
	}
	used := map[string]bool{}
	for _, f := range files {
		s := size{raw: int64(len(f.body))}
		if err := put(f.path, f.body); err != nil {
			return nil, err
		}
		if compressible(f.path) {
			for _, ext := range []string{".gz", ".br"} {
				from := digest(f.body) + ext
				used[from] = true
				b, err := os.ReadFile(t.Path(WorkDir + "/twins/" + from))
				if err != nil {
					return nil, err
				}
				if err := put(f.path+ext, b); err != nil {
					return nil, err
				}
				if ext == ".gz" {
					s.gz = int64(len(b))
				} else {
					s.br = int64(len(b))
				}
			}
		}
		sizes[f.path] = s
	}
	return sizes, errors.Join(keepOnly(t.Path(distDir), wanted), keepOnly(t.Path(WorkDir+"/twins"), used))
}

func makeTwins(ctx context.Context, t tree.Tree, files []file) error {
	dir := t.Path(WorkDir + "/twins")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	var pairs []string
	for _, f := range files {
		name := filepath.Join(dir, digest(f.body))
		if _, err := os.Stat(name + ".br"); err == nil || !compressible(f.path) {
			continue
		}
		var b bytes.Buffer
		z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
		if err != nil {
			return err
		}
		if _, err := z.Write(f.body); err != nil {
			return err
		}
		if err := z.Close(); err != nil {
			return err
		}
		if err := errors.Join(os.WriteFile(name+".gz", b.Bytes(), 0o644), os.WriteFile(name+".raw", f.body, 0o644)); err != nil {
			return err
		}
		pairs = append(pairs, name+".raw", name+".br")
	}
	if pairs == nil {
		return nil
	}
	return t.Run(ctx, tree.Cmd{Name: "node", Args: append([]string{"-e", twin}, pairs...)})
}

// keepOnly removes every file below dir that is not wanted.
func keepOnly(dir string, wanted map[string]bool) error {
	return filepath.WalkDir(dir, func(at string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(dir, at)
		if err != nil || wanted[filepath.ToSlash(rel)] {
			return err
		}
		return os.Remove(at)
	})
}

// report prints the sizes by part and holds the first visit against Budget.
func report(out io.Writer, files []file, sizes map[string]size) error {
	var parts, later []string
	sum := map[string]size{}
	var all size
	var sent int64
	for _, f := range files {
		if f.part == "" {
			continue
		}
		if _, ok := sum[f.part]; !ok && f.later {
			later = append(later, f.part)
		} else if !ok {
			parts = append(parts, f.part)
		}
		s, add := sum[f.part], sizes[f.path]
		add.br = add.sent()
		s.raw, s.br = s.raw+add.raw, s.br+add.br
		sum[f.part] = s
		if f.later {
			continue
		}
		all.raw, sent = all.raw+add.raw, sent+add.br
	}
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "first visit\traw\tcompressed\t")
	for _, p := range parts {
		fmt.Fprintf(w, "%s\t%s\t%s\t\n", p, kB(sum[p].raw), kB(sum[p].br))
	}
	fmt.Fprintf(w, "in all\t%s\t%s\t\n", kB(all.raw), kB(sent))
	for _, p := range later {
		fmt.Fprintf(w, "later: %s\t%s\t%s\t\n", p, kB(sum[p].raw), kB(sum[p].br))
	}
	if err := w.Flush(); err != nil {
		return err
	}
	if sent > Budget {
		return fmt.Errorf("%w: it takes %s of at most %s; see which part grew", ErrBudget, kB(sent), kB(Budget))
	}
	return nil
}

// kB writes bytes as thousands, rounded up: a budget is not met by rounding.
func kB(n int64) string { return strings.TrimSpace(fmt.Sprintf("%d kB", (n+999)/1000)) }
