// Package sheettest reads printed labels back, for the tests of all who print
// them: Decode finds the square in one label's part of a page.
package sheettest

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"trayside/internal/label"
)

// Tool runs one of the programs that read a PDF or a picture and returns what it
// says; a missing one fails the test, because a check that is skipped is none.
func Tool(t testing.TB, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v (\"go run ./cmd/dev test\" installs what is missing)", name, err)
	}
	return string(out)
}

// Decode returns what the square in a cell of a page (from 0) of the PDF file
// says, or "" if it cannot be read. A whole page decodes unreliably, and a single
// resolution too, so the cell is cropped and three are tried.
func Decode(t testing.TB, pdf string, page int, cell label.Box) string {
	t.Helper()
	if _, err := exec.LookPath("zbarimg"); err != nil {
		Tool(t, "zbarimg")
	}
	for _, dpi := range []int64{203, 150, 290} {
		px := func(um int64) string { return fmt.Sprint(um * dpi / 25400) }
		stem := filepath.Join(t.TempDir(), "crop")
		Tool(t, "pdftoppm", "-png", "-gray", "-singlefile", "-r", fmt.Sprint(dpi), "-f", fmt.Sprint(page+1), "-l", fmt.Sprint(page+1),
			"-x", px(cell.X), "-y", px(cell.Y), "-W", px(cell.W), "-H", px(cell.H), pdf, stem)
		// It ends with an error when it finds nothing; then the next dpi is tried.
		out, _ := exec.Command("zbarimg", "--nodbus", "-q", "--raw", "-Sdisable", "-Sqrcode.enable", stem+".png").Output()
		if text := strings.TrimSpace(string(out)); text != "" {
			return text
		}
	}
	return ""
}
