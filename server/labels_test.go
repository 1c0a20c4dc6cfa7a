package server_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"trayside/internal/label"
	"trayside/server"
	"trayside/server/sheet/sheettest"
	"trayside/sync/roster"
)

func TestAPhoneHasLabelsDrawn(t *testing.T) {
	s := newSite(t, func(c *server.Config) { c.Base = "https://bins.example.org" })
	keeper := s.member("keeper", roster.Keeper).token
	on := label.A4x21()
	body := m{
		"what": "labels", "sheet": on, "start": 4, "copies": 2, "blank": 1,
		"labels": []map[string]string{{"code": "00018HWZF", "tray": "Slate", "bin": "Cellar"}},
	}
	s.post("/api/v1/print", "", body).refused(t, 401, "no-token")
	got := s.post("/api/v1/print", keeper, body)
	if got.status != 200 || got.header.Get("Content-Type") != "application/pdf" || got.header.Get("Cache-Control") != "no-store" {
		t.Fatalf("status %d, type %q: %.200s", got.status, got.header.Get("Content-Type"), got.body)
	}
	pdf := filepath.Join(t.TempDir(), "labels.pdf")
	if err := os.WriteFile(pdf, got.body, 0o600); err != nil {
		t.Fatal(err)
	}
	var read []string
	for n := range 5 {
		page, cell := on.Cell(4 + n)
		read = append(read, sheettest.Decode(t, pdf, page, cell))
	}
	if read[0] != "https://BINS.EXAMPLE.ORG/T/00018HWZF" || read[1] != read[0] {
		t.Errorf("the tray's two labels read %q", read[:2])
	}
	if code, err := label.FromAddress(read[2]); err != nil || read[3] != read[2] || code == "00018HWZF" {
		t.Errorf("the blank label's two faces read %q: %v", read[2:4], err)
	}
	if read[4] != "" {
		t.Errorf("after the last label stands %q", read[4])
	}
}

// hanFrom is a hundred letters that no font here has.
func hanFrom(n rune) string {
	var b strings.Builder
	for r := range rune(100) {
		b.WriteRune('一' + n + r)
	}
	return b.String()
}

func TestWhatCannotBeDrawnIsRefusedInWords(t *testing.T) {
	s := newSite(t)
	keeper := s.member("keeper", roster.Keeper).token
	small := label.A4x21()
	small.CellW = 19_000
	slate := []map[string]string{{"code": "00018HWZF", "tray": "Slate", "bin": "Cellar"}}
	for _, tt := range []struct {
		name   string
		body   m
		status int
		code   string
		says   string
	}{
		{"nothing in particular", m{}, 400, "bad-request", "want labels"},
		{"labels on no sheet", m{"what": "labels", "labels": slate}, 400, "bad-request", "which sheet"},
		{"no labels at all", m{"what": "labels", "sheet": label.A4x21()}, 422, "unprintable", `"detail":"there is nothing to print`},
		{"a code that is none", m{"what": "labels", "sheet": label.A4x21(), "labels": []map[string]string{{"code": "nonsense", "tray": "Slate"}}}, 422, "unprintable", "Slate"},
		{"labels too small", m{"what": "labels", "sheet": small, "labels": slate}, 422, "unprintable", "too small"},
		{"a cell that is not there", m{"what": "labels", "sheet": label.A4x21(), "labels": slate, "start": 21}, 422, "unprintable", "no cell 22"},
		{"a billion copies", m{"what": "labels", "sheet": label.A4x21(), "labels": slate, "copies": 1_000_000_000}, 400, "bad-request", "copies"},
		{"more blank ones than a file holds", m{"what": "labels", "sheet": label.A4x21(), "blank": 501}, 400, "bad-request", "blank"},
		{"letters of no font here", m{"what": "labels", "sheet": label.A4x21(), "labels": []map[string]string{{"code": "00018HWZF", "tray": "桶 A"}}}, 422, "letters", `"letters":"桶"`},
		{"a name of a novel's length", m{"what": "labels", "sheet": label.A4x21(), "labels": []map[string]string{{"code": "00018HWZF", "tray": strings.Repeat("a", 401)}}}, 400, "bad-request", "400 bytes"},
		{"letters of a whole script", m{"what": "labels", "sheet": label.A4x21(), "labels": []map[string]string{{"code": "00018HWZF", "tray": hanFrom(0), "bin": hanFrom(100)}}}, 422, "letters", "一丁丂七丄丅丆万丈三上下丌不与丏丐丑丒专. Give"},
		{"a card of more trays than a line shows", m{"what": "cards", "cards": []m{{"bin": "Cellar", "trays": make([]string, 101), "mass": "g", "temp": "C"}}}, 400, "bad-request", "100 trays"},
		{"a card in a unit of nobody's", m{"what": "cards", "cards": []m{{"bin": "Cellar", "mass": "stone", "temp": "C"}}}, 400, "bad-request", "g or oz"},
		{"more cards than a file holds", m{"what": "cards", "cards": slices.Repeat([]m{{"bin": "Cellar", "mass": "g", "temp": "C"}}, 51)}, 422, "unprintable", "in parts"},
		{"cards of no bin", m{"what": "cards"}, 422, "unprintable", "no bin"},
	} {
		got := s.post("/api/v1/print", keeper, tt.body)
		got.refused(t, tt.status, tt.code)
		if !strings.Contains(string(got.body), tt.says) {
			t.Errorf("%s: says %s, want %q in it", tt.name, got.body, tt.says)
		}
	}
	got := s.post("/api/v1/print", keeper, m{
		"what": "labels", "sheet": label.A4x21(), "anyway": true, "labels": []map[string]string{{"code": "00018HWZF", "tray": "桶 A"}},
	})
	if got.status != 200 {
		t.Errorf("with anyway: status %d: %s", got.status, got.body)
	}
}

func TestAnAddressThatNoLabelCanLeadToIsNoAccident(t *testing.T) {
	s := newSite(t)
	token := s.member("keeper", roster.Keeper).token
	req := httptest.NewRequest(http.MethodPost, "/api/v1/print", strings.NewReader(jsonOf(t, m{"what": "calibration", "sheet": label.A4x21()})))
	req.Host = "somebody@bins.example.org"
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("Authorization", "Bearer "+token)
	rec := httptest.NewRecorder()
	s.Handler().ServeHTTP(rec, req)
	got := reply{rec.Code, rec.Header(), rec.Body.Bytes()}
	got.refused(t, http.StatusBadRequest, "bad-request")
	if !strings.Contains(string(got.body), "--base") {
		t.Errorf("says %s, want how to mend it", got.body)
	}
}

func TestCardsAndCalibrationPagesAreDrawnForPhones(t *testing.T) {
	s := newSite(t)
	keeper := s.member("keeper", roster.Keeper).token
	for what, body := range map[string]m{
		"cards": {"what": "cards", "paper": "letter", "language": "es", "cards": []m{
			{"bin": "Bodega", "trays": []string{"Pizarra"}, "vessels": []map[string]string{{"name": "taza", "amount": "300 g"}}, "mass": "g", "temp": "C"},
		}},
		"calibration": {"what": "calibration", "sheet": label.A4x21(), "language": "es"},
	} {
		got := s.post("/api/v1/print", keeper, body)
		if got.status != 200 || !strings.HasPrefix(string(got.body), "%PDF-") {
			t.Errorf("%s: status %d: %.200s", what, got.status, got.body)
		}
	}
}
