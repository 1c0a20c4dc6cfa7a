package phone_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trayside/internal/demo"
	"trayside/pwa/engine/phone"
	"trayside/sync/oplog"
)

// The golden files were written natively; the same test runs as js/wasm, so a
// view that differs by one bit there fails. A golden file that changes is a
// changed model or view: look at the difference before you write it anew.
var update = flag.Bool("update", false, "write the golden files anew")

// household opens a phone that holds these operations and has no checkpoint.
func household(t testing.TB, ops []oplog.Sealed) *hand {
	t.Helper()
	h := &hand{t: t, server: &server{off: true}, household: "00112233445566778899aabbccddeeff", device: ops[0].Op.Dev, member: demo.Tamsin, known: map[string]bool{}, now: noon}
	for _, op := range ops {
		h.ops = append(h.ops, string(op.Bytes))
		h.known[op.ID.String()] = true
	}
	if got := h.open(); got.Count != len(ops) {
		t.Fatalf("open: %+v; want %d operations", got, len(ops))
	}
	return h
}

func TestTheDemoHouseholdLooksTheSameEverywhere(t *testing.T) {
	h := household(t, demo.Household(1, dayOf(t, today)))
	h.rest()
	if got := h.open(); got.State != "ready" || got.Count != len(h.ops) { // the second time from the checkpoint
		t.Fatalf("open from the checkpoint: %+v; want ready with %d", got, len(h.ops))
	}
	codes := map[string]string{}
	for _, bin := range view[struct {
		Bins []struct{ Stack []struct{ Name, Code string } }
	}](h, "today", "").Bins {
		for _, tier := range bin.Stack {
			codes[tier.Name] = tier.Code
		}
	}
	for _, tc := range []struct{ file, screen, arg string }{
		{"today", "today", ""}, {"tray-fern", "tray", codes["Fern"]}, {"tray-slate", "tray", codes["Slate"]},
		{"tray-moss", "tray", codes["Moss"]}, {"tray-unknown", "tray", "000-000-000"}, {"weigh", "weigh", ""},
		{"timeline", "timeline", ""}, {"household", "household", ""},
		{"slip", "slip", `{"tray":"` + view[struct{ ID string }](h, "tray", codes["Fern"]).ID + `","grams":5000}`},
	} {
		t.Run(tc.file, func(t *testing.T) {
			var got bytes.Buffer
			if err := json.Indent(&got, view[json.RawMessage](h, tc.screen, tc.arg), "", "\t"); err != nil {
				t.Fatal(err)
			}
			got.WriteByte('\n')
			file := filepath.Join("testdata", "frozen", tc.file+".golden")
			if *update {
				if err := os.WriteFile(file, got.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			want = bytes.ReplaceAll(want, []byte("\r\n"), []byte("\n"))
			if !bytes.Equal(got.Bytes(), want) {
				line, g, w := firstDifference(got.Bytes(), want)
				t.Errorf("line %d of %s:\n%s\nwant\n%s", line, file, g, w)
			}
		})
	}
}

func firstDifference(a, b []byte) (line int, left, right []byte) {
	as, bs := bytes.Split(a, []byte("\n")), bytes.Split(b, []byte("\n"))
	for i := range min(len(as), len(bs)) {
		if !bytes.Equal(as[i], bs[i]) {
			return i + 1, as[i], bs[i]
		}
	}
	return min(len(as), len(bs)) + 1, nil, nil
}

func TestABadCallIsAnErrorFrame(t *testing.T) {
	var shut phone.Phone
	h := household(t, demo.Household(1, dayOf(t, today)))
	for _, tc := range []struct {
		name   string
		run    func([]byte) []byte
		header string
		says   string
	}{
		{"before open", shut.View, `{}`, "call open first"},
		{"a header of another shape", h.p.Receive, `{"ops":7}`, "frame header"},
		{"a screen that is none", h.p.View, `{"screen":"attic","day":"2026-11-25"}`, "no screen"},
		{"a day that is none", h.p.View, `{"screen":"today","day":"yesterday"}`, "not a date"},
		{"randomness that is not hexadecimal", h.p.Record, `{"rand":"xy"}`, "not hexadecimal"},
		{"something to sign that is not JSON", h.p.View, `{"screen":"sign","arg":"text"}`, "not the JSON"},
		{"something to sign that no phone signs", h.p.View, `{"screen":"sign","arg":"{\"kind\":\"found\"}"}`, "a grant or a revocation"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			frame, err := phone.Frame(json.RawMessage(tc.header), nil)
			if err != nil {
				t.Fatal(err)
			}
			head, _, err := phone.Split(tc.run(frame))
			var failure struct{ Error string }
			if err != nil || json.Unmarshal(head, &failure) != nil || !strings.Contains(failure.Error, tc.says) {
				t.Errorf("answer %q, %v; want an error that says %q", head, err, tc.says)
			}
		})
	}
	head, _, err := phone.Split(h.p.View(nil))
	if err != nil || !bytes.Contains(head, []byte(`"error"`)) {
		t.Errorf("an empty frame: %q, %v; want an error frame", head, err)
	}
}
