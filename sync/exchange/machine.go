package exchange

import (
	"iter"

	"trayside/sync/oplog"
)

// Held is an operation that a phone holds.
type Held struct {
	ID oplog.ID
	T  int64 // stamp, ms
}

// Config is what a Machine starts from.
type Config struct {
	Known   iter.Seq[Held] // held here and believed to be on the other side; nil: none
	Waiting iter.Seq[Held] // held here and not known to be there; nil: none
	Hint    Hint
	Floor   int64 // newest household time seen, ms
	Heard   int64 // phone's time of the last answer, ms
	Roster  PhoneRoster
}

// PhoneRoster is the roster as the asking side needs it.
type PhoneRoster interface {
	Roster
	// Revoked is the reason of a verified revocation of this phone; empty if
	// there is none.
	Revoked() string
}

// Machine is the asking side. It is used by one goroutine at a time.
type Machine struct{}

// New makes a Machine; give it EventStart next.
func New(c Config) *Machine { return &Machine{} }

// Hold tells the machine of operations that the phone has stored and that came
// from no exchange of this machine: own entries and those of a hand-over. Those
// it knows of already are passed over. Give EventSaved next.
func (m *Machine) Hold(ops ...Held) {}

// Step takes one event and gives what is to be done.
func (m *Machine) Step(ev Event) []Effect { return nil }

// Status is what the sync line shows now.
func (m *Machine) Status() Status { return Status{} }

// Offset is what to add to the phone's clock to have the household's, ms;
// false until an answer has told.
func (m *Machine) Offset() (int64, bool) { return 0, false }

// Floor is the newest household time seen, ms: no stamp is made below it.
func (m *Machine) Floor() int64 { return 0 }
