package exchange

import (
	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// Log is one household's log, as the answering side needs it. A server's store
// satisfies it, and so does a Shelf.
type Log interface {
	// Put takes operations in: at most 256 of them and about 256 KiB, no two
	// alike. When it returns, every operation it reports as Stored or Dup
	// survives a power cut, counts in the sums and has an arrival number. It
	// gives one Result per operation, in order. An error means that nothing may
	// be acknowledged, though some may have been stored.
	Put(ops []oplog.Sealed) ([]Result, error)

	// View calls f with the log as it stood at one moment: whatever f reads
	// belongs together, and writes made meanwhile do not show. f must not keep
	// the snapshot.
	View(f func(Snapshot) error) error
}

// Snapshot is a log at one moment.
type Snapshot interface {
	Root() (digest.Sum, error)
	// Head is the log's instance and the arrival number of its newest
	// operation, 0 if it is empty.
	Head() (Hint, error)
	// Since lists operations with arrival numbers above n in the order of
	// arrival: at most limit of them. Numbers may have holes.
	Since(n uint64, limit int) ([]Arrival, error)
	Months() ([]digest.MonthSum, error)
	Days(digest.Month) ([]digest.DaySum, error)
	Parts(digest.Day) ([]digest.PartSum, error)
	// IDs lists ids of a day, or of one part of it (digest.WholeDay: all), in
	// ascending order: those above after (nil: from the first), at most limit.
	IDs(day digest.Day, part int, after *oplog.ID, limit int) ([]oplog.ID, error)
	// Ops gives the bytes of those asked for that the log holds, in the order
	// asked for; others are left out.
	Ops(ids []oplog.ID) ([][]byte, error)
}

// Arrival is a stored operation with its arrival number.
type Arrival struct {
	N     uint64
	ID    oplog.ID
	Bytes []byte
}

// Roster is the second, signed set, as far as the exchange must know it. What
// the texts say and whether their signatures hold is for Add to judge.
type Roster interface {
	// Root is the sum of the hashes of the texts held.
	Root() digest.Sum
	// Texts lists the signed texts held.
	Texts() []string
	// Add takes in the texts it can verify and passes over the others. When it
	// returns without error, those taken in are kept.
	Add(texts []string) error
}

// Door judges whether an operation may come in from the device that pushes
// it: an empty string lets it in, anything else is the Why of its refusal.
type Door func(oplog.Op) (why string)
