// Package pwa holds the built phone app. cmd/dev builds it into dist, with .br
// and .gz twins beside the files; without a build only placeholder.txt is
// there, and the server says what to run. Files is the one thing to use.
package pwa

import (
	"embed"
	"io/fs"
)

//go:embed dist
var dist embed.FS

// Files are the built files, index.html at the root.
func Files() fs.FS {
	files, err := fs.Sub(dist, "dist")
	if err != nil {
		panic("pwa: the embedded folder is named dist: " + err.Error())
	}
	return files
}
