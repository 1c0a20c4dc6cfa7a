package exchange

import (
	"iter"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// Times, in ms.
const (
	pollMS     = 60_000  // between exchanges with nothing to do
	patienceMS = 60_000  // for an answer, a store or a token
	firstMS    = 1_000   // shortest wait before a retry
	longestMS  = 300_000 // longest
)

// mostRepairs is how often in one round the sets are compared in detail. Once
// is enough unless somebody writes meanwhile; a side whose sums are wrong for
// good must not be asked for ever.
const mostRepairs = 2

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
	Heard   int64 // phone's time of the answer with which all was heard, ms; 0 if never
	Roster  PhoneRoster
}

// PhoneRoster is the roster as the asking side needs it.
type PhoneRoster interface {
	Roster
	// Revoked is the reason of a verified revocation of this phone; empty if
	// there is none.
	Revoked() string
}

// phase is what the machine waits for.
type phase int

const (
	resting  phase = iota // the next event; the poll timer runs
	retrying              // the retry timer
	loading               // bytes of the batch
	posting               // an answer
	storing               // what was learnt to be durable
	signing               // a token
	wiped                 // nothing: this phone was removed
)

// Machine is the asking side. It works in rounds: push and pull until nothing
// waits and nothing more comes, compare roots, repair if they differ. One
// request, load, store or signature is under way at a time. It is used by one
// goroutine at a time.
type Machine struct {
	known  digest.Calendar // held here and, we believe, on the other side
	queue  queue           // held here and not known to be there
	roster PhoneRoster
	hint   Hint
	floor  int64
	heard  int64

	came int // operations that came in since all was heard

	phase    phase
	seq      int  // of the effect that is waited for
	timerSeq int  // of the timer that runs
	seqs     int  // last number given out
	again    bool // something happened during the round: do another
	held     bool // the server asked to wait: only the timer ends it
	attempts int  // retries in a row without progress

	// Of the round.
	ask     bool // an exchange is due even with nothing to push
	skip    map[oplog.ID]bool
	trouble string // Detail to end with
	repairs int
	signed  bool // a new token was fetched for the request under way

	limit      int // operations in the next batch
	batch      []text
	loadIDs    []oplog.ID
	rosterOut  []string        // texts the other side lacks
	rosterSent map[string]bool // and was given in this round; it may not want them
	query      *Query          // under way or due again; nil while exchanging
	repair     *repair
	lesson     *lesson
	lost       map[oplog.ID]bool // waiting, and storage had no bytes for them: to be fetched if the other side can
	unsure     map[int]*lesson   // by seq: stores that patience ended before they were heard of

	state, detail string
	shown         *Status
	now           int64
	rand          float64
	out           []Effect
}

// text is an operation's bytes on their way.
type text struct {
	id    oplog.ID
	bytes string
}

// New makes a Machine; give it EventStart next.
func New(c Config) *Machine {
	m := &Machine{
		roster: c.Roster, hint: c.Hint, floor: c.Floor, heard: c.Heard,
		limit: MaxOps, lost: map[oplog.ID]bool{}, unsure: map[int]*lesson{}, state: StateIdle,
	}
	if c.Waiting != nil {
		for h := range c.Waiting {
			m.queue.add(h)
		}
	}
	if c.Known != nil {
		for h := range c.Known {
			if !m.queue.has(h.ID) {
				m.known.Add(h.T, h.ID)
			}
		}
	}
	return m
}

// Hold tells the machine of operations that the phone has stored and that came
// from no exchange of this machine: own entries and those of a hand-over. Those
// it knows of already are passed over. Give EventSaved next.
func (m *Machine) Hold(ops ...Held) {
	for _, h := range ops {
		if _, known := m.known.Stamp(h.ID); !known {
			m.queue.add(h)
		}
	}
}

// Waiting lists what is not known to be on the other side, by (stamp, id).
func (m *Machine) Waiting() []oplog.ID { return m.queue.first(m.queue.len(), nil) }

// Status is what the sync line shows now.
func (m *Machine) Status() Status {
	return Status{Waiting: m.queue.len(), Heard: m.heard, Fetched: m.came, State: m.state, Detail: m.detail}
}

// Floor is the newest household time seen, ms: no stamp is made below it.
func (m *Machine) Floor() int64 { return m.floor }

// Step takes one event and gives what is to be done.
func (m *Machine) Step(ev Event) []Effect {
	m.now, m.rand, m.out = ev.Now, ev.Rand, nil
	switch ev.Kind {
	case EventStart, EventVisible, EventOnline, EventTap, EventRipple:
		m.wake(true)
	case EventSaved:
		m.wake(false)
	case EventTimer:
		m.ring(ev.Seq)
	case EventLoaded, EventAnswer, EventFailed, EventStored, EventStoreFail, EventAuthed, EventAuthFailed:
		if ev.Seq == m.seq {
			m.arrive(ev)
		} else if l := m.unsure[ev.Seq]; l != nil { // late, but storage holds it now
			delete(m.unsure, ev.Seq)
			if ev.Kind == EventStored {
				m.apply(l)
			}
		} // anything else comes too late: we gave up on it
	}
	if s := m.Status(); m.shown == nil || *m.shown != s {
		m.shown = &s
		m.do(Effect{Kind: EffectStatus, Status: &s})
	}
	return m.out
}

// arrive hands the event that was waited for to its phase.
func (m *Machine) arrive(ev Event) {
	switch {
	case m.phase == loading && ev.Kind == EventLoaded:
		m.loaded(ev.Ops)
	case m.phase == loading && ev.Kind == EventFailed:
		m.fail(StateProblem, DetailStorage)
	case m.phase == posting && ev.Kind == EventAnswer:
		m.answered(ev)
	case m.phase == posting && ev.Kind == EventFailed:
		m.fail(StateOffline, "")
	case m.phase == storing && ev.Kind == EventStored:
		m.stored()
	case m.phase == storing && ev.Kind == EventStoreFail:
		m.fail(StateProblem, DetailStorage)
	case m.phase == signing && ev.Kind == EventAuthed:
		m.next()
	case m.phase == signing && ev.Kind == EventAuthFailed:
		m.unsigned(ev)
	}
}

// wake starts a round or asks for one more. An eager wake ends a pause: there
// is reason to think that the other side can be reached.
func (m *Machine) wake(eager bool) {
	if m.phase != wiped && m.removed() {
		return
	}
	switch m.phase {
	case wiped:
	case resting:
		m.begin()
	case retrying:
		if eager && !m.held {
			m.attempts = 0
			m.begin()
		}
	default:
		m.again = true
	}
}

// ring is the end of a timer: time for a round, or the end of patience.
func (m *Machine) ring(seq int) {
	if seq != m.timerSeq {
		return
	}
	switch m.phase {
	case wiped:
	case resting, retrying:
		m.begin()
	case storing:
		m.unsure[m.seq] = m.lesson
		m.fail(StateProblem, DetailStorage)
	case loading:
		m.fail(StateProblem, DetailStorage)
	default:
		m.fail(StateOffline, "")
	}
}

// begin starts a round. A repair that was broken off goes on: what it found
// out may be old by now, but all it does is safe to do again.
func (m *Machine) begin() {
	m.ask, m.again, m.held, m.signed = true, false, false, false
	m.skip, m.trouble, m.repairs, m.query = map[oplog.ID]bool{}, "", 0, nil
	m.rosterSent = map[string]bool{}
	if m.state == StateIdle {
		m.state = StateBusy // any other state stays on show until something is better
	}
	m.next()
}

// next does the next thing of the round. What waits goes first, so that a
// repair that fails again and again holds nothing up.
func (m *Machine) next() {
	m.batch, m.query = nil, nil
	if m.loadIDs = m.queue.first(m.limit, m.skip); len(m.loadIDs) > 0 {
		m.await(loading, Effect{Kind: EffectLoad, IDs: m.loadIDs})
		return
	}
	if m.ask || len(m.rosterOut) > 0 {
		m.push()
		return
	}
	if m.repair != nil {
		if q, more := m.repair.query(&m.known); more {
			m.query = &q
			m.post(PathReconcile, q)
			return
		}
		m.repair, m.ask = nil, true
		m.push()
		return
	}
	m.settle()
}

// settle ends the round.
func (m *Machine) settle() {
	switch {
	case m.trouble != "":
		m.fail(StateProblem, m.trouble)
	case m.again:
		m.begin()
	default:
		m.phase, m.attempts, m.state, m.detail = resting, 0, StateIdle, ""
		m.timer(pollMS)
	}
}

// fail ends the round early; another follows after a pause of random length
// that grows with every failure, so that phones do not come back all at once.
func (m *Machine) fail(state, detail string) {
	m.attempts++
	longest := int64(firstMS) << min(m.attempts, 20)
	m.pause(state, detail, firstMS+int64(m.rand*float64(min(longest, longestMS)-firstMS)))
}

func (m *Machine) pause(state, detail string, ms int64) {
	m.phase, m.state, m.detail = retrying, state, detail
	m.lesson, m.seq = nil, 0
	m.timer(ms)
}

func (m *Machine) do(e Effect) { m.out = append(m.out, e) }

func (m *Machine) timer(ms int64) {
	m.seqs++
	m.timerSeq = m.seqs
	m.do(Effect{Kind: EffectTimer, Seq: m.timerSeq, MS: ms})
}

// await does an effect that an event will answer, but not for ever.
func (m *Machine) await(p phase, e Effect) {
	m.seqs++
	m.phase, m.seq, e.Seq = p, m.seqs, m.seqs
	m.do(e)
	m.timer(patienceMS)
}
