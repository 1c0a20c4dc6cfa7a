package replica

import (
	"slices"
)

// history is a register with all its writes by (stamp, id); the last counts.
// The earlier ones are kept because an undo falls back to them.
type history []write

type write struct {
	mark  *Mark
	value []byte
}

func (w write) register() Register { return Register{Value: w.value, Mark: *w.mark} }

func (h *history) insert(w write) {
	i, _ := slices.BinarySearchFunc(*h, w, func(a, b write) int { return a.mark.compare(b.mark) })
	*h = slices.Insert(*h, i, w)
}

func (h *history) remove(m *Mark) {
	*h = slices.DeleteFunc(*h, func(w write) bool { return w.mark == m })
}

func (h history) winner() (Register, bool) {
	if len(h) == 0 || isNull(h[len(h)-1].value) {
		return Register{}, false
	}
	return h[len(h)-1].register(), true
}

func (h history) text() string {
	if len(h) == 0 {
		return ""
	}
	return string(h[len(h)-1].value)
}

// before is the write that would count if m had not written, provided that m's
// write counts now.
func (h history) before(m *Mark) (previous []byte, counts bool) {
	n := len(h)
	if n == 0 || h[n-1].mark != m {
		return nil, false
	}
	if n > 1 {
		previous = h[n-2].value
	}
	return previous, true
}

func isNull(value []byte) bool { return string(value) == "null" }

func boolValue(b bool) []byte {
	if b {
		return []byte("true")
	}
	return []byte("false")
}
