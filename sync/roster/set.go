package roster

import (
	"maps"
	"slices"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// maxStrays bounds what is kept of operations that no keeper's chain vouches
// for yet; the grant that links them may arrive after them.
const maxStrays = 256

// Set is a household's roster as an exchange and a device need it. It may be
// used by one goroutine at a time; a State taken from it may be shared.
type Set struct {
	verify Verifier
	me     string
	ops    map[oplog.ID]Signed
	strays []oplog.ID // in ops, not vouched for; oldest first
	state  *State
}

// NewSet makes the empty roster of a household, which takes in what verify
// accepts. me is the own device's id, or empty.
func NewSet(home oplog.ID, me string, verify Verifier) *Set {
	return &Set{verify: verify, me: me, ops: map[oplog.ID]Signed{}, state: Fold(home, nil)}
}

// Clone returns a set that grows apart from s: whoever must write down what a
// Take brought tries it on a clone first.
func (s *Set) Clone() *Set {
	c := *s
	c.ops, c.strays = maps.Clone(s.ops), slices.Clone(s.strays)
	return &c
}

// Add takes in the texts it can verify and passes over the others, those of
// other households among them. The error is always nil: nothing here can fail.
func (s *Set) Add(texts []string) error {
	s.Take(texts)
	return nil
}

// Take is Add and tells which operations the set did not vouch for before:
// those are what a store must keep.
func (s *Set) Take(texts []string) []Signed {
	home := s.state.Home()
	grown := false
	for _, text := range texts {
		op, err := Open(text, s.verify)
		if err != nil || op.Op.Home != home.String() && op.ID != home {
			continue
		}
		if _, there := s.ops[op.ID]; !there {
			s.ops[op.ID] = op
			s.strays = append(s.strays, op.ID)
			grown = true
		}
	}
	if !grown {
		return nil
	}
	return s.refold()
}

// refold folds anew, and returns what is vouched for now and was not before.
func (s *Set) refold() []Signed {
	all := make([]Signed, 0, len(s.ops))
	for _, op := range s.ops {
		all = append(all, op)
	}
	before := make(map[oplog.ID]bool, len(s.state.rooted))
	for _, op := range s.state.rooted {
		before[op.ID] = true
	}
	s.state = Fold(s.state.Home(), all)
	rooted := make(map[oplog.ID]bool, len(s.state.rooted))
	var fresh []Signed
	for _, op := range s.state.rooted {
		rooted[op.ID] = true
		if !before[op.ID] {
			fresh = append(fresh, op)
		}
	}
	strays := s.strays[:0]
	for _, id := range s.strays {
		if !rooted[id] {
			strays = append(strays, id)
		}
	}
	for len(strays) > maxStrays {
		delete(s.ops, strays[0])
		strays = strays[1:]
	}
	s.strays = strays
	return fresh
}

// State is what the set means now.
func (s *Set) State() *State { return s.state }

// Root is the digest of the operations that a keeper's chain vouches for.
func (s *Set) Root() digest.Sum { return s.state.Root() }

// Texts lists those operations as they travel, by id.
func (s *Set) Texts() []string {
	list := make([]string, 0, len(s.state.rooted))
	for _, op := range s.state.rooted {
		list = append(list, op.Text)
	}
	return list
}

// Revoked is why the own device is out by a verified revocation; empty if it
// is not. Being adrift is no revocation.
func (s *Set) Revoked() string {
	d, _ := s.state.Device(s.me)
	if d.Why == Adrift {
		return ""
	}
	return d.Why
}
