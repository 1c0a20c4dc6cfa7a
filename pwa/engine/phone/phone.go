// Package phone is the engine of the phone app behind its five calls: open,
// record, receive, view and exchange. Each takes one frame and gives one (see
// Frame); main.go of the folder above only hands the bytes to JavaScript.
//
// A Phone holds the fold of the household's log, its roster and the loop of an
// exchange. It has no clock, no randomness, no storage and no network: instants
// and random numbers come in with the calls, and what must be kept or sent goes
// out as effects. It never panics outwards; a bug becomes an error frame.
package phone

import (
	"fmt"
	"slices"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/replica"
	"trayside/sync/roster"
)

// Phone is one household on one phone. The zero value waits for Open. It is
// used by one goroutine.
type Phone struct {
	household string
	device    string
	member    string // from open; the roster's word counts once it has one

	rep     *replica.Replica
	reader  *journal.Reader
	home    *record.Household // nil when something came in since it was read
	reading bool              // more of the log is on its way

	advice    *advice.Advice // of home and adviceDay
	keeps     advice.Keeps   // how far back each bin has been worked out
	stored    advice.Keeps   // as of the last checkpoint
	adviceDay record.Day
	language  string // of advice
	asides    int    // of the replica, already told

	waiting map[oplog.ID]bool // not known to be on the server, until machine holds them
	roster  *roster.Set
	machine *exchange.Machine // made at the first exchange
	start   exchange.Config
}

// Calls lists the five calls by their names.
func (p *Phone) Calls() map[string]func(frame []byte) []byte {
	return map[string]func([]byte) []byte{
		"open":     p.Open,
		"record":   p.Record,
		"receive":  p.Receive,
		"view":     p.View,
		"exchange": p.Exchange,
	}
}

// failure is the header of an error frame. It means misuse or a bug, never
// something that a person typed.
type failure struct {
	Error string `json:"error"`
}

// answer runs one call and frames what it gives. A panic becomes a sentence.
func answer(call string, run func() (header any, body []byte, err error)) (frame []byte) {
	defer func() {
		if r := recover(); r != nil {
			frame = failed(fmt.Sprintf("the engine stumbled in %s: %v. Nothing that was saved is lost; open the app again", call, r))
		}
	}()
	header, body, err := run()
	if err != nil {
		return failed(fmt.Sprintf("%s: %v", call, err))
	}
	if frame, err = Frame(header, body); err != nil {
		return failed(fmt.Sprintf("%s: %v", call, err))
	}
	return frame
}

func failed(why string) []byte {
	frame, err := Frame(failure{why}, nil)
	if err != nil {
		panic("phone: a string is always JSON: " + err.Error())
	}
	return frame
}

// add folds operations in and says how many were new. Texts that are no
// operation are passed over: the storage holds them, and other phones see the same.
func (p *Phone) add(texts []string, mine bool) (added int) {
	for _, text := range texts {
		op, err := oplog.Open([]byte(text))
		if err == nil && p.fold(op) {
			added++
			p.hold(op, mine)
		}
	}
	return added
}

func (p *Phone) fold(op oplog.Sealed) bool {
	if !p.rep.Add(op) {
		return false
	}
	p.reader.Touch(op.Op.Ent)
	p.home, p.advice = nil, nil
	return true
}

// hold tells the loop of the exchange of an operation that did not come by it.
func (p *Phone) hold(op oplog.Sealed, mine bool) {
	switch {
	case p.machine != nil:
		p.machine.Hold(exchange.Held{ID: op.ID, T: op.Op.T})
	case mine:
		p.waiting[op.ID] = true
	}
}

// loop makes the loop of the exchange when it is first needed: summing 20,000
// operations can wait until the first screen is drawn.
func (p *Phone) loop() *exchange.Machine {
	if p.machine != nil {
		return p.machine
	}
	held := func(waiting bool) func(yield func(exchange.Held) bool) {
		return func(yield func(exchange.Held) bool) {
			for m := range p.rep.Ops() {
				if p.waiting[m.ID] == waiting && !yield(exchange.Held{ID: m.ID, T: m.T}) {
					return
				}
			}
		}
	}
	c := p.start
	c.Known, c.Waiting, c.Roster = held(false), held(true), p.roster
	p.machine = exchange.New(c)
	p.waiting = nil
	return p.machine
}

// read returns the record of what was read so far.
func (p *Phone) read() *record.Household {
	if p.home == nil {
		p.home = p.reader.Household()
		p.home.ID = p.household
	}
	return p.home
}

// me is the member whose phone this is, and its role: by the roster where it
// knows this device, otherwise as the caller said.
func (p *Phone) me() (member string, role roster.Role) {
	if d, ok := p.roster.State().Device(p.device); ok && d.In() {
		return d.Member, d.Role
	}
	return p.member, ""
}

// floor is the newest household time seen.
func (p *Phone) floor() int64 {
	if p.machine != nil {
		return p.machine.Floor()
	}
	return p.start.Floor
}

// newAsides lists what was set aside since it was told last.
func (p *Phone) newAsides() []replica.Aside {
	all := p.rep.Asides()
	if len(all) == p.asides {
		return nil
	}
	p.asides = len(all)
	return slices.Clone(all)
}
