package journal_test

import (
	"testing"

	"trayside/internal/demo"
	"trayside/internal/journal"
	"trayside/sync/replica"
)

// BenchmarkRead decodes years of log after a cold start: 20,000 operations.
func BenchmarkRead(b *testing.B) {
	rep := replica.New(journal.Schema())
	for _, op := range demo.Long(1, 20782, 20_000) {
		rep.Add(op)
	}
	rep, err := replica.Restore(rep.Snapshot(), journal.Schema())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		journal.Read(rep)
	}
}
