package phone_test

import (
	"encoding/json"
	"sync"
	"testing"

	"trayside/internal/demo"
	"trayside/sync/oplog"
)

// years is a log of 20,000 operations, written once.
var years = sync.OnceValue(func() []oplog.Sealed { return demo.Long(1, 20782, 20_000) })

// atRest opens a phone with years of log and lets it make its checkpoint.
func atRest(t testing.TB, ops []oplog.Sealed) (h *hand, tray string) {
	t.Helper()
	h = household(t, ops)
	h.rest()
	today := view[struct{ Bins []struct{ Tray string } }](h, "today", "")
	return h, today.Bins[0].Tray
}

// BenchmarkColdStart is what stands between a tap on the app and a ration, once
// the engine runs: the checkpoint is read and one tray shown.
func BenchmarkColdStart(b *testing.B) {
	h, tray := atRest(b, years())
	h.rest() // now the bins are worked out
	coldStarts(b, h, tray)
}

// BenchmarkColdStartBeforeAnyView is the same from a checkpoint that holds no
// bin's state: each is worked out from its first day.
func BenchmarkColdStartBeforeAnyView(b *testing.B) {
	h, tray := atRest(b, years())
	coldStarts(b, h, tray)
}

func coldStarts(b *testing.B, h *hand, tray string) {
	for b.Loop() {
		h.open()
		view[json.RawMessage](h, "tray", tray)
	}
	b.ReportMetric(float64(len(h.checkpoint))/1e6, "checkpoint-MB")
}

// BenchmarkOpen is the first half of it.
func BenchmarkOpen(b *testing.B) {
	h, _ := atRest(b, years())
	for b.Loop() {
		h.open()
	}
}

// BenchmarkRebuild reads the whole log without a checkpoint.
func BenchmarkRebuild(b *testing.B) {
	h, tray := atRest(b, years())
	h.checkpoint, h.covered = nil, 0
	for b.Loop() {
		h.open()
		view[json.RawMessage](h, "tray", tray)
	}
}

// BenchmarkCheckpoint makes one.
func BenchmarkCheckpoint(b *testing.B) {
	h, _ := atRest(b, years())
	for b.Loop() {
		h.rest()
	}
}

func TestYearsOfLogOpenFromACheckpoint(t *testing.T) {
	const n = 3000
	h, tray := atRest(t, demo.Long(1, 20782, n))
	before := string(view[json.RawMessage](h, "tray", tray))
	if got := h.open(); got.State != "ready" || got.Count != n {
		t.Fatalf("open: %+v; want ready with %d", got, n)
	}
	if after := string(view[json.RawMessage](h, "tray", tray)); after != before {
		t.Errorf("the tray looks different after a cold start:\n%s\n%s", after, before)
	}
	h.checkpoint = append([]byte(nil), h.checkpoint...)
	h.checkpoint[len(h.checkpoint)/2] ^= 1
	if got := h.open(); got.State != "rebuilding" || got.Why == "" {
		t.Errorf("open of a damaged checkpoint: %+v; want rebuilding and why", got)
	}
}
