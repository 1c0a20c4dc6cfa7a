// Package store keeps households' logs on disk. Badger is the database behind
// it; Memory keeps the same in memory, for tests and for the curious. Both pass
// the conformance suite in storetest, and a further store must too.
//
// An operation that Put reports as stored survives kill −9 and a power cut: the
// write-ahead file is synced before Put returns. Bytes are checked against
// their id whenever they are read, so a damaged row is reported and never
// served. Rows are never deleted.
//
// The package knows nothing of HTTP, of roles, or of what an operation means.
package store

import (
	"errors"
	"fmt"

	"trayside/sync/oplog"
)

// ErrFull says that too little disk space is left to take operations in.
var ErrFull = errors.New("store: less than 200 MB of disk space is left; make room, then everything waiting will be taken in")

// ErrClosed says that the store was closed.
var ErrClosed = errors.New("store: it is closed")

// MinFree is the disk space in bytes below which Put takes nothing in: a full
// disk has corrupted databases of this kind.
const MinFree = 200 << 20

// Damaged says that a row does not hold what was written to it.
type Damaged struct {
	What string
	ID   oplog.ID // operation concerned, zero if the row holds none
}

func (e *Damaged) Error() string {
	return fmt.Sprintf("store: damaged %s %v on disk; any phone that holds the entry will bring it back", e.What, e.ID)
}
