package phone

import (
	"errors"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/replica"
	"trayside/sync/roster"
)

// openHeader opens a household; the frame's body is the newest checkpoint, or empty.
type openHeader struct {
	Now       int64          `json:"now"`
	Household string         `json:"household"` // id, 32 hexadecimal digits; empty before joining
	Device    string         `json:"device"`
	Member    string         `json:"member"`
	Unshared  []oplog.ID     `json:"unshared"` // held and not known to be on the server
	Hint      *exchange.Hint `json:"hint"`
	Floor     int64          `json:"floor"`  // newest household time seen, ms
	Heard     int64          `json:"heard"`  // phone's time of the answer with which all was heard, ms; 0 if never
	Tail      []string       `json:"tail"`   // operations kept after the checkpoint
	Roster    []string       `json:"roster"` // signed texts; the caller verified their signatures, as of all that reach the engine
	More      bool           `json:"more"`   // receive goes on with the tail; its last batch says more: false
}

// States of an openAnswer.
const (
	ready      = "ready"      // the checkpoint served, or none was needed
	rebuilding = "rebuilding" // the caller passes on the whole log by receive
)

// openAnswer says what open made of the checkpoint.
type openAnswer struct {
	State string `json:"state"`
	Count int    `json:"count"` // operations read so far
	Why   string `json:"why"`   // why the checkpoint was of no use; empty if it was
}

// Open is the first call. It may be called again to start over.
func (p *Phone) Open(frame []byte) []byte {
	return answer("open", func() (any, []byte, error) {
		var h openHeader
		body, err := unframe(frame, &h)
		if err != nil {
			return nil, nil, err
		}
		return p.open(h, body), nil, nil
	})
}

func (p *Phone) open(h openHeader, checkpoint []byte) openAnswer {
	home, _ := oplog.ParseID(h.Household) // not joined yet: an empty roster
	*p = Phone{
		household: h.Household, device: h.Device, member: h.Member,
		waiting: make(map[oplog.ID]bool, len(h.Unshared)),
		roster:  roster.NewSet(home, h.Device, roster.Vouched),
		start:   exchange.Config{Floor: h.Floor, Heard: h.Heard},
	}
	if h.Hint != nil {
		p.start.Hint = *h.Hint
	}
	for _, id := range h.Unshared {
		p.waiting[id] = true
	}
	p.roster.Take(h.Roster)

	out := openAnswer{State: ready}
	rep, keeps, err := restore(checkpoint)
	if err != nil {
		rep, keeps = replica.New(journal.Schema()), advice.Keeps{}
		if !errors.Is(err, errNoCheckpoint) {
			out.Why = err.Error()
		}
		if h.More || out.Why != "" {
			out.State = rebuilding
		}
	}
	p.rep, p.reader = rep, journal.NewReader(rep)
	p.keeps, p.stored = keeps, keeps.Clone()
	p.asides = len(rep.Asides())
	p.add(h.Tail, false) // which of them wait stands in Unshared
	p.reading = h.More || out.State == rebuilding
	out.Count = p.rep.Len()
	return out
}

// receiveHeader brings what the storage holds: own entries, those that another
// tab or a hand-over brought, more of the log at the start, and roster texts that
// this phone or another tab signed or heard.
type receiveHeader struct {
	Ops    []string `json:"ops"`
	Roster []string `json:"roster"` // signed texts, verified as in openHeader; those held already are passed over
	Mine   bool     `json:"mine"`   // Ops are not known to be on the server
	More   bool     `json:"more"`   // there is more to come before views are right
}

// receiveAnswer says what came in.
type receiveAnswer struct {
	Added int             `json:"added"` // operations not held before
	Aside []replica.Aside `json:"aside"` // all that is set aside, if that grew; otherwise null
}

// Receive folds operations in and lets roster texts count, after the storage has
// them. The next exchange offers the server what it lacks of either.
func (p *Phone) Receive(frame []byte) []byte {
	return answer("receive", func() (any, []byte, error) {
		var h receiveHeader
		if _, err := p.unframe(frame, &h); err != nil {
			return nil, nil, err
		}
		out := receiveAnswer{Added: p.add(h.Ops, h.Mine)}
		if len(p.roster.Take(h.Roster)) > 0 {
			p.advice = nil // it knows whose phone this is
		}
		p.reading = h.More
		out.Aside = p.newAsides()
		return out, nil, nil
	})
}

// unframe is for the calls that need an open household.
func (p *Phone) unframe(frame []byte, header any) ([]byte, error) {
	if p.rep == nil {
		return nil, errors.New("the household is not open; call open first")
	}
	return unframe(frame, header)
}
