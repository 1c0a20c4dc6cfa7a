package exchange

import (
	"encoding/json"
	"fmt"

	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// loaded makes the batch of what storage gave and pushes it.
func (m *Machine) loaded(texts []string) {
	found := make(map[oplog.ID]string, len(texts))
	for _, t := range texts {
		found[oplog.Hash([]byte(t))] = t // whatever it was stored under: what rotted is not the operation any more
	}
	size := 0
	for _, id := range m.loadIDs {
		t, there := found[id]
		if !there {
			m.skip[id], m.lost[id], m.trouble = true, true, DetailMissing
			continue
		}
		if size += len(t); size > MaxOpBytes && len(m.batch) > 0 {
			break
		}
		m.batch = append(m.batch, text{id, t})
	}
	if len(m.batch) == 0 {
		m.next()
		return
	}
	m.push()
}

// push posts an exchange with the batch.
func (m *Machine) push() {
	req := Request{After: m.hint, Ops: []string{}, Root: m.known.Root(), RosterRoot: m.roster.Root()}
	if len(m.batch) == 0 { // by themselves, so that it is plain what is too big
		req.Roster = m.rosterOut
	}
	for _, t := range m.batch {
		req.Ops = append(req.Ops, t.bytes)
	}
	m.post(PathExchange, req)
}

func (m *Machine) post(path string, message any) {
	body, err := json.Marshal(message)
	if err != nil {
		panic("exchange: " + err.Error()) // our own types of numbers and texts: a programmer's error
	}
	m.await(posting, Effect{Kind: EffectPost, Path: path, Body: string(body)})
}

// answered reads an answer to a post: first what any server, proxy or portal
// in between may say, then the message.
func (m *Machine) answered(ev Event) {
	switch status := ev.Status; {
	case status == 413, len(m.batch) > 0 && ev.JSON && (status == 400 || status == 422):
		m.halve()
	case status == 429:
		m.later(ev.RetryAfter)
	case status >= 500 && !ev.JSON:
		m.fail(StateOffline, "") // a gateway with nothing behind it
	case !ev.JSON:
		m.fail(StatePortal, "")
	case status == 401 && !m.signed:
		m.signed = true
		m.await(signing, Effect{Kind: EffectAuthenticate})
	case status == 401:
		m.fail(StateAuth, "")
	case status == 403:
		m.forbidden(ev.Body)
	case status != 200:
		m.repair = nil // in case it was the query that the server could not bear
		m.fail(StateProblem, fmt.Sprintf("%s %d", DetailServer, status))
	case m.query != nil:
		m.replied(ev.Body)
	default:
		m.exchanged(ev.Body)
	}
}

// halve makes the batch smaller. An operation that is refused all by itself is
// skipped until the next round, and those behind it go on.
func (m *Machine) halve() {
	switch n := len(m.batch); {
	case n > 1:
		m.limit = n / 2
	case n == 1:
		m.skip[m.batch[0].id], m.trouble = true, DetailTooBig
	case len(m.rosterOut) > 0:
		m.rosterOut, m.trouble = nil, DetailTooBig
	default:
		m.repair = nil
		m.fail(StateProblem, DetailTooBig)
		return
	}
	m.next()
}

// later waits as long as the server asks, within reason.
func (m *Machine) later(seconds int) {
	if seconds <= 0 {
		m.fail(StateProblem, DetailLater)
	} else {
		m.attempts++
		ms := min(int64(min(seconds, longestMS))*1000, longestMS)
		m.pause(StateProblem, DetailLater, ms+int64(m.rand*firstMS))
	}
	m.held = true
}

// unsigned is a token that was not given: no network, a portal, or a refusal
// that may show a revocation.
func (m *Machine) unsigned(ev Event) {
	switch {
	case ev.Status == 0, ev.Status >= 500:
		m.fail(StateOffline, "")
	case ev.Status == 429:
		m.later(ev.RetryAfter)
	case !ev.JSON:
		m.fail(StatePortal, "")
	case ev.Status == 401, ev.Status == 403:
		m.forbidden(ev.Body)
	default:
		m.fail(StateAuth, "")
	}
}

// forbidden looks into a refusal for roster texts: only a revocation that the
// roster verifies counts, a bare word never.
func (m *Machine) forbidden(body string) {
	var refusal struct {
		Roster []string `json:"roster"`
	}
	l := &lesson{then: func() { m.fail(StateProblem, DetailForbidden) }}
	if json.Unmarshal([]byte(body), &refusal) == nil {
		l.store.Roster = missing(refusal.Roster, m.roster.Texts())
	}
	if len(l.store.Roster) == 0 {
		m.fail(StateProblem, DetailForbidden)
		return
	}
	m.learn(l)
}

// exchanged reads the answer to an exchange.
func (m *Machine) exchanged(body string) {
	var a Answer
	if err := json.Unmarshal([]byte(body), &a); err != nil || a.Next.Inst == "" {
		m.fail(StatePortal, "") // JSON, but nobody of ours
		return
	}
	m.hear(a.Now)
	m.limit = min(2*m.limit, MaxOps)
	l := &lesson{hint: &a.Next}
	m.receive(l, a.Ops)
	m.results(l, a.Results)
	more := a.More && (len(a.Ops) > 0 || a.Next != m.hint)
	if !more && m.after(l) == a.Root {
		l.heard = m.now
	}
	if len(m.batch) == 0 {
		for _, t := range m.rosterOut {
			m.rosterSent[t] = true
		}
	}
	m.rosterOut = nil
	if a.Roster != nil {
		mine := m.roster.Texts()
		l.store.Roster = missing(a.Roster, mine)
		for _, t := range missing(mine, a.Roster) {
			if !m.rosterSent[t] {
				m.rosterOut = append(m.rosterOut, t)
			}
		}
	}
	l.then = func() { m.compare(a.Root, more) }
	m.learn(l)
}

// receive sorts out operations that came from the other side.
func (m *Machine) receive(l *lesson, texts []string) {
	for _, t := range texts {
		s, err := oplog.Open([]byte(t))
		if err != nil {
			m.trouble = DetailDiffers // no side of ours sends it; the sums will go on differing
			continue
		}
		if _, known := m.known.Stamp(s.ID); known || l.has(s.ID) {
			continue
		}
		l.note(s.ID)
		if m.queue.has(s.ID) && !m.lost[s.ID] {
			l.store.Known = append(l.store.Known, s.ID)
		} else {
			l.fold = append(l.fold, s)
			l.store.Ops = append(l.store.Ops, t)
		}
	}
}

// results notes what became of the batch. Only a plain word of the other side
// takes an operation off the queue.
func (m *Machine) results(l *lesson, results []Result) {
	byID := make(map[oplog.ID]Result, len(results))
	for _, r := range results {
		byID[r.ID] = r
	}
	for _, t := range m.batch {
		if l.has(t.id) {
			continue // it came back to us: the other side has it
		}
		switch r := byID[t.id]; r.Code {
		case Stored, Dup:
			l.note(t.id)
			l.store.Known = append(l.store.Known, t.id)
		case Refused:
			l.note(t.id)
			l.store.Refused = append(l.store.Refused, r)
		default:
			m.skip[t.id], m.trouble = true, DetailLater
		}
	}
}

// compare decides how to go on after an exchange.
func (m *Machine) compare(root digest.Sum, more bool) {
	m.ask = more
	if more || m.repair != nil || len(m.queue.first(1, m.skip)) > 0 || root == m.known.Root() {
		m.next()
		return
	}
	if m.repairs < mostRepairs {
		m.repairs++
		m.repair = &repair{}
	} else {
		m.trouble = DetailDiffers
	}
	m.next()
}

// after is the root of what the other side will be believed to hold once this
// lesson counts.
func (m *Machine) after(l *lesson) digest.Sum {
	root := m.known.Root()
	for _, s := range l.fold {
		root = root.Add(s.ID)
	}
	for _, id := range l.store.Known {
		if m.queue.has(id) {
			root = root.Add(id)
		}
	}
	return root
}

// hear notes that the other side spoke, and what its clock shows. Whether all
// was heard shows only when the roots agree.
func (m *Machine) hear(now int64) {
	m.floor, m.signed = max(m.floor, now), false
	m.state, m.detail = StateBusy, ""
}
