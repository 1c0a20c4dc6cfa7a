package ration

import (
	"fmt"

	"trayside/internal/record"
	"trayside/internal/units"
)

// Operators of a Reason.
const (
	opStart  = ""        // begins the ledger
	opTimes  = "×"       // multiplies the running value, rounded to the thousandth
	opLess   = "−"       // takes away
	opPlus   = "+"       // adds
	opCap    = "≤"       // the running value is no larger than this
	opRound  = "≈"       // rounding for people: the signed difference, added
	opBeside = "compare" // stands beside the arithmetic, which passes it by
)

// Reason is one row of the ledger under a ration. Rows are read in order: a row
// with an operator applies to the running value, a row marked Sum states it, and
// the rule of thumb (operator "compare") stands beside it and changes nothing. The
// last row is the result. Values are whole thousandths of Unit, so that a ledger
// can be added up again exactly; the row of rounding carries what was added or
// taken away.
type Reason struct {
	Code  string
	Op    string
	Milli int64
	Unit  string // "g", "per day", "d" or "×"
	Sum   bool
	Day   record.Day  // a day the words may name, or 0
	From  units.Grams // lower end the words may name
	To    units.Grams // upper end the words may name
}

// Check adds a ledger up again and returns its result in thousandths of a gram.
// The error names the first row that does not follow from those above it.
func Check(rows []Reason) (int64, error) {
	if len(rows) == 0 || rows[0].Op != opStart || rows[0].Sum {
		return 0, fmt.Errorf("a ledger begins with a quantity")
	}
	if !rows[len(rows)-1].Sum {
		return 0, fmt.Errorf("a ledger ends with its result")
	}
	running := rows[0].Milli
	for i, row := range rows[1:] {
		switch {
		case row.Sum:
			if row.Milli != running {
				return 0, fmt.Errorf("row %d (%s) states %d where the rows above make %d", i+2, row.Code, row.Milli, running)
			}
		default:
			next, ok := apply(running, row.Op, row.Milli)
			if !ok {
				return 0, fmt.Errorf("row %d (%s) has the operator %q, which is none", i+2, row.Code, row.Op)
			}
			running = next
		}
	}
	return running, nil
}

// apply carries out one row.
func apply(running int64, op string, milli int64) (int64, bool) {
	switch op {
	case opTimes:
		return units.Round(running*milli, 1000), true
	case opLess:
		return running - milli, true
	case opPlus, opRound:
		return running + milli, true
	case opCap:
		return min(running, milli), true
	case opBeside:
		return running, true
	}
	return running, false
}

// ledger is a running value with the rows that led to it.
type ledger struct {
	rows    []Reason
	running int64
	limits  int64 // the smallest cap so far that rounding may not pass
	cuts    []cut
}

// cut is what one cause left of the value before it, in thousandths.
type cut struct {
	cause string
	left  int64
}

const unlimited = 1 << 62

func start(r Reason) *ledger {
	return &ledger{rows: []Reason{r}, running: r.Milli, limits: unlimited}
}

func (l *ledger) row(r Reason) {
	l.running, _ = apply(l.running, r.Op, r.Milli)
	l.rows = append(l.rows, r)
}

func (l *ledger) sum(code string) {
	l.rows = append(l.rows, Reason{Code: code, Milli: l.running, Unit: "g", Sum: true})
}

// factor multiplies by a share and remembers what binds if it is less than one.
func (l *ledger) factor(code, cause string, milli int64) {
	l.row(Reason{Code: code, Op: opTimes, Milli: milli, Unit: "×"})
	l.cuts = append(l.cuts, cut{cause, milli})
}

// cap limits the value and is written down only where it bites.
func (l *ledger) cap(code, cause string, milli int64) {
	milli = max(milli, 0)
	l.limits = min(l.limits, milli)
	if l.running <= milli {
		return
	}
	l.remember(cause, milli)
	l.row(Reason{Code: code, Op: opCap, Milli: milli, Unit: "g"})
}

// less takes away from what there is; what goes below nothing is brought back to it in a row of its
// own, so that the person sees both.
func (l *ledger) less(code, cause string, r Reason) {
	if r.Milli <= 0 || l.running <= 0 {
		return
	}
	r.Code, r.Op, r.Unit = code, opLess, "g"
	l.remember(cause, max(0, l.running-r.Milli))
	l.row(r)
	if l.running < 0 {
		l.row(Reason{Code: "not-below-nothing", Op: opPlus, Milli: -l.running, Unit: "g"})
	}
	if l.limits != unlimited {
		l.limits = max(0, l.limits-r.Milli)
	}
}

// remember notes that a cause leaves this much of the running value.
func (l *ledger) remember(cause string, left int64) {
	if l.running > 0 {
		l.cuts = append(l.cuts, cut{cause, units.Round(left*1000, l.running)})
	}
}

// handful adds a small trial where the cautious side offers less and the middle
// would eat it, within the limits.
func (l *ledger) handful(middle units.Grams, s situation) {
	lack := min(handful*1000, l.limits) - l.running
	if s.hold || s.lying+s.fed > 0 || middle < handful || l.running < 0 || lack <= 0 {
		return
	}
	l.row(Reason{Code: "handful", Op: opPlus, Milli: lack, Unit: "g"})
}

// nothingOver keeps rounding from adding to what goes there for sure.
func (l *ledger) nothingOver(goes int64) { l.limits = min(l.limits, max(goes, l.running)) }

// round brings the value to a step that people can weigh and that is no finer
// than it is known to. The exceptions: a limit is known exactly, so that what
// meets or would pass it is rounded down in the finest steps; a coarse step adds
// no more than a quarter and never rounds a meal away; a last ration stays as it is
// until the value has risen by a step (or by a quarter) or fallen by half of one,
// so that a number does not flutter; and where bare says that no more lies there
// than there is room for, a few hungry worms get what little they eat.
func (l *ledger) round(interval, last units.Grams, bare bool) {
	g := units.Grams(units.Round(max(l.running, 0), 1000))
	step, finest := units.StepForPeople(g, interval), units.StepForPeople(g, 0)
	tooMuch := func(grams units.Grams) bool { return mostAdded*(grams-g) > g }
	grams := units.RoundToStep(g, step)
	switch rise := min(step, max(finest, last/mostAdded)); {
	case last > 0 && last%finest == 0 && 2*(last-g) <= step && g-last < rise && !tooMuch(last):
		grams = last
	case grams == 0 || tooMuch(grams):
		grams = units.RoundToStep(g, finest)
	}
	if l.running >= l.limits || int64(grams)*1000 > l.limits {
		limit := units.Grams(l.limits / 1000)
		finest = units.StepForPeople(limit, 0)
		grams = limit / finest * finest
	}
	if grams == 0 && g > 0 && bare {
		most := min(g, units.Grams(l.limits/1000))
		grams = max(most/pinch*pinch, min(most, pinch-1))
	}
	if d := int64(grams)*1000 - l.running; d != 0 {
		l.row(Reason{Code: "rounding", Op: opRound, Milli: d, Unit: "g"})
	}
	l.sum("ration")
}

func (l *ledger) result() units.Grams { return units.Grams(l.running / 1000) }
