package exchange

import "trayside/sync/oplog"

// lesson is what an answer taught, until it is durable.
type lesson struct {
	store Store
	hint  *Hint          // nil: as before
	fold  []oplog.Sealed // the operations of store.Ops
	noted map[oplog.ID]bool
	heard int64  // with it all was heard: phone's time of the answer, ms; otherwise 0
	then  func() // how the round goes on
}

func (l *lesson) has(id oplog.ID) bool { return l.noted[id] }

func (l *lesson) note(id oplog.ID) {
	if l.noted == nil {
		l.noted = map[oplog.ID]bool{}
	}
	l.noted[id] = true
}

// learn has a lesson stored; nothing of it counts before that.
func (m *Machine) learn(l *lesson) {
	l.store.Hint, l.store.Floor, l.store.Heard = m.hint, m.floor, max(m.heard, l.heard)
	if l.hint != nil {
		l.store.Hint = *l.hint
	}
	m.lesson = l
	m.await(storing, Effect{Kind: EffectStore, Store: &l.store})
}

// stored lets the lesson count and goes on.
func (m *Machine) stored() {
	l := m.lesson
	m.lesson = nil
	m.hint = l.store.Hint
	m.apply(l)
	if !m.removed() {
		l.then()
	}
}

// apply lets what is durable count.
func (m *Machine) apply(l *lesson) {
	for _, s := range l.fold {
		m.known.Add(s.Op.T, s.ID)
		m.queue.remove(s.ID) // saved here by another way meanwhile, or lost and back
		delete(m.lost, s.ID)
	}
	for _, id := range l.store.Known {
		if t, waits := m.queue.remove(id); waits {
			m.known.Add(t, id)
		}
	}
	for _, id := range l.store.Unknown {
		if t, known := m.known.Stamp(id); known {
			m.known.Remove(id)
			m.queue.add(Held{id, t})
		}
	}
	changed := Effect{Kind: EffectChanged, Fold: l.fold}
	for _, r := range l.store.Refused {
		m.queue.remove(r.ID)
		changed.Drop = append(changed.Drop, r.ID)
	}
	if len(l.store.Roster) > 0 && m.roster.Add(l.store.Roster) != nil {
		m.trouble = DetailStorage
	}
	m.came += len(l.fold)
	if l.heard > 0 {
		m.heard, m.came = max(m.heard, l.heard), 0
	}
	if len(l.store.Ops)+len(l.store.Known)+len(l.store.Unknown)+len(l.store.Refused) > 0 {
		m.attempts = 0 // progress
	}
	if len(l.fold)+len(changed.Drop)+len(l.store.Roster) > 0 {
		m.do(changed)
	}
}

// removed ends everything if the roster proves that this phone was removed.
func (m *Machine) removed() bool {
	why := m.roster.Revoked()
	if why == "" {
		return false
	}
	m.phase, m.seq, m.state, m.detail = wiped, 0, StateRevoked, why
	m.do(Effect{Kind: EffectWipe, Reason: why})
	return true
}

// missing lists the texts of have that are not among the others.
func missing(have, others []string) []string {
	known := make(map[string]bool, len(others))
	for _, t := range others {
		known[t] = true
	}
	var list []string
	for _, t := range have {
		if !known[t] {
			known[t] = true
			list = append(list, t)
		}
	}
	return list
}
