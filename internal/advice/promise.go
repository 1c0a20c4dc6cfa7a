package advice

import (
	"slices"

	"trayside/internal/colony"
	"trayside/internal/record"
)

// score counts the promises that a look has settled.
type score struct{ kept, of int }

// scored is how many settled promises count: the newest ones, so that a bin
// that was misjudged in its first month is not held to it for ever.
const scored = 30

// scoreOf scores the promises of past meals. Each is the one that the model,
// run on the log as it is now known, would have made on the meal's own day,
// with nothing that was written for a later day. It is settled by a look at
// where the meal lay, before anything else was put there:
//   - nothing left on or before the promised day: kept;
//   - the first look from the promised day to the end of its span: kept if
//     nothing is left, else broken;
//   - something left after the span: broken. Nothing left after it says nothing,
//     since nobody knows when it went.
func scoreOf(in *colony.Input, course *colony.Ensemble) score {
	var s score
	for n := len(in.Meals) - 1; n >= 0 && s.of < scored; n-- {
		m := &in.Meals[n]
		said, ok := course.Said(m.Feeding)
		if !ok || !said.Gone || said.By == m.Day {
			continue
		}
		if kept, settled := settle(in, n, said); settled {
			s.of++
			if kept {
				s.kept++
			}
		}
	}
	return s
}

func settle(in *colony.Input, n int, said colony.Forecast) (kept, settled bool) {
	m := &in.Meals[n]
	since, _ := slices.BinarySearchFunc(in.Looks, m.Day, func(l record.Look, d record.Day) int { return int(l.Day - d) })
	for _, l := range in.Looks[since:] {
		if l.Leftovers == "" || !at(&l, m) || l.Day < m.Day || l.Day == m.Day && l.At <= m.At {
			continue
		}
		if l.Day > in.Today || covered(in, n, &l) {
			return false, false
		}
		none := l.Leftovers == record.LeftNone || l.Leftovers == record.LeftHard
		switch {
		case none && l.Day <= said.Late:
			return true, true
		case none:
			return false, false
		case l.Day >= said.By:
			return false, true
		}
	}
	return false, false
}

// at reports whether a look's eyes were where a meal lay.
func at(l *record.Look, m *colony.Meal) bool {
	return l.Tray == m.Tray && (l.Spot == "" || m.Spot == "" || l.Spot == m.Spot)
}

// covered reports whether a newer meal lay in a look's view, so that what it
// found cannot be told apart.
func covered(in *colony.Input, n int, l *record.Look) bool {
	return slices.ContainsFunc(in.Meals[n+1:], func(later colony.Meal) bool {
		return at(l, &later) && (later.Day < l.Day || later.Day == l.Day && later.At < l.At)
	})
}
