package server

import (
	"trayside/sync/exchange"
	"trayside/sync/oplog"
)

// Store is where households are kept. Implementations are safe for concurrent
// use; server/store holds two and storetest says what all must do.
type Store interface {
	// Homes lists the households that anything was kept for.
	Homes() ([]oplog.ID, error)
	// Log is one household's log; its Put acknowledges only what is on disk.
	Log(home oplog.ID) exchange.Log
	// PutRoster keeps signed texts under their ids, Roster lists them.
	PutRoster(home oplog.ID, texts map[oplog.ID]string) error
	Roster(home oplog.ID) ([]string, error)
	// PutInvite keeps an invite or replaces it, Invites gives all by id.
	PutInvite(home, id oplog.ID, row []byte) error
	Invites(home oplog.ID) (map[oplog.ID][]byte, error)
	// Ready is nil when operations can be taken in.
	Ready() error
	Close() error
}
