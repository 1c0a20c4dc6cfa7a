package advice

import (
	"slices"
	"strings"

	"trayside/internal/colony"
	"trayside/internal/ration"
	"trayside/internal/record"
	"trayside/internal/trouble"
)

// TroubleView is what may be wrong in a tray: from signs that a person chose to
// causes and what to do tonight. Codes are those of package trouble.
type TroubleView struct {
	Found       bool          `json:"found"` // false: the household has no such tray
	Tray        string        `json:"tray"`
	Name        string        `json:"name"`
	Bin         string        `json:"bin"`
	BinName     string        `json:"binName"`
	Day         string        `json:"day"`
	Mass        string        `json:"mass"`
	Temp        string        `json:"temp"`
	Signs       []string      `json:"signs"`  // all there are, those that ask for haste first
	Seen        []string      `json:"seen"`   // noted by the looks of the last week: offered ticked
	Chosen      []string      `json:"chosen"` // those that the findings stand on
	Findings    []FindingView `json:"findings"`
	Unexplained []string      `json:"unexplained"` // signs that no cause which fits best explains
	Tonight     []StepView    `json:"tonight"`
	Stop        []string      `json:"stop"`
	Cautions    []string      `json:"cautions"`
	Urgent      bool          `json:"urgent,omitempty"`
	Look        string        `json:"look,omitempty"`  // day to look again
	Check       string        `json:"check,omitempty"` // what to measure to tell causes apart: squeeze, bed-temperature, leftovers
	Feeding     FeedingView   `json:"feeding"`
	Members     []Person      `json:"members"`
}

// FindingView is one cause and how well it fits: best, could or not.
type FindingView struct {
	Cause   string     `json:"cause"`
	Fit     string     `json:"fit"`
	Likely  int64      `json:"likely"` // of 1000
	Reasons []ClueView `json:"reasons"`
}

// ClueView is one piece of evidence for a cause, or against it.
type ClueView struct {
	Of    string `json:"of"`   // sign, absent or log
	Code  string `json:"code"` // the sign, or what of the log
	Band  string `json:"band,omitempty"`
	Value int64  `json:"value,omitempty"`
	Unit  string `json:"unit,omitempty"`
	For   bool   `json:"for"` // speaks for the cause
}

// StepView is one thing to do tonight; Unit is "" where there is no quantity.
type StepView struct {
	Code   string `json:"code"`
	Amount int64  `json:"amount,omitempty"`
	Unit   string `json:"unit,omitempty"`
}

// FeedingView is what the causes mean for feeding: "hold", "reduce" or "".
type FeedingView struct {
	Kind  string `json:"kind,omitempty"`
	Milli int64  `json:"milli"` // of a usual meal
	Cause string `json:"cause,omitempty"`
}

// Trouble returns what may be wrong in a tray. arg is the tray and the signs
// that are seen, parted by commas; a sign with a minus before it was looked for
// and not found. Without signs it only offers them.
func (a *Advice) Trouble(arg string) TroubleView {
	tray, list, _ := strings.Cut(arg, ",")
	v := TroubleView{
		Tray: tray, Day: a.day.String(), Mass: a.mass(), Temp: a.temp(), Signs: names(trouble.Signs()),
		Seen: []string{}, Chosen: []string{}, Members: a.people(),
	}
	t := a.trays[tray]
	if t == nil || a.bins[t.Bin] == nil {
		v.tell(trouble.Diagnose(trouble.Input{}))
		return v
	}
	v.Found, v.Name, v.Bin, v.BinName = true, t.Name, t.Bin, a.binName(t.Bin)
	v.Seen = names(trouble.SeenIn(a.h, tray, a.day))
	seen, absent := signsIn(list)
	v.Chosen = names(seen)
	r := a.run(a.bins[t.Bin])
	v.tell(trouble.Diagnose(trouble.Input{Today: a.day, Signs: seen, Absent: absent, Log: a.troubleLog(r, tray, a.day, r.est)}))
	return v
}

// signsIn reads signs parted by commas; what is no sign is passed over.
func signsIn(list string) (seen, absent []trouble.Sign) {
	known := trouble.Signs()
	for word := range strings.SplitSeq(list, ",") {
		code, not := strings.CutPrefix(strings.TrimSpace(word), "-")
		sign := trouble.Sign(code)
		switch {
		case !slices.Contains(known, sign) || slices.Contains(seen, sign):
		case not:
			absent = append(absent, sign)
		default:
			seen = append(seen, sign)
		}
	}
	return seen, absent
}

func (a *Advice) troubleLog(r *run, tray string, d record.Day, est colony.Estimate) trouble.Log {
	return trouble.LogOf(a.h, tray, d, r.in.South, est)
}

// tell fills in a diagnosis.
func (v *TroubleView) tell(r trouble.Result) {
	v.Findings, v.Tonight = []FindingView{}, []StepView{}
	for _, f := range r.Findings {
		found := FindingView{Cause: string(f.Cause), Fit: f.Fit, Likely: f.Likely, Reasons: []ClueView{}}
		for _, x := range f.Reasons {
			found.Reasons = append(found.Reasons, ClueView{Of: x.Of, Code: x.Code, Band: x.Band, Value: x.Value, Unit: x.Unit, For: x.Times > 1000})
		}
		v.Findings = append(v.Findings, found)
	}
	for _, s := range r.Tonight {
		v.Tonight = append(v.Tonight, StepView{Code: s.Code, Amount: s.Amount, Unit: s.Unit})
	}
	v.Unexplained, v.Stop, v.Cautions = names(r.Unexplained), r.Stop, r.Cautions
	v.Urgent, v.Check = r.Urgent, r.Check
	if r.Look != 0 {
		v.Look = r.Look.String()
	}
	v.Feeding = FeedingView{Kind: r.Feeding.Kind, Milli: r.Feeding.Milli, Cause: r.Feeding.Cause}
}

func names[T ~string](list []T) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = string(s)
	}
	return out
}

// A look with signs of trouble bears on feeding until somebody looks again, and
// for troubleDays at the longest: what is not looked at is then no longer known.
// Judgement.
const troubleDays = 14

// noted is trouble that somebody noted in a tray and that still stands.
type noted struct {
	look   *record.Look
	result trouble.Result
}

// trouble returns what the newest look with signs says of a tray on a day. A
// later look at the tray that tells of the bed and names no sign ends it from
// the day on which to look again; one before that day only adds to it.
func (a *Advice) trouble(r *run, tray string, d record.Day, est colony.Estimate) (noted, bool) {
	for i := len(r.in.Looks) - 1; i >= 0; i-- {
		l := &r.in.Looks[i]
		if l.Tray != tray || l.Day > d || len(l.Signs) == 0 {
			continue
		}
		if d-l.Day >= troubleDays {
			break
		}
		seen, _ := signsIn(strings.Join(l.Signs, ","))
		result := trouble.Diagnose(trouble.Input{Today: l.Day, Signs: seen, Log: a.troubleLog(r, tray, d, est)})
		if result.Look == 0 || a.lookedAgain(r, l, result.Look, d) {
			break
		}
		return noted{l, result}, true
	}
	return noted{}, false
}

func (a *Advice) lookedAgain(r *run, first *record.Look, from, d record.Day) bool {
	return slices.ContainsFunc(r.in.Looks, func(l record.Look) bool {
		return l.Tray == first.Tray && l.ID != first.ID && l.Day >= from && l.Day <= d && l.Says()
	})
}

// troubled is what trouble in a tray means for its ration.
func (a *Advice) troubled(r *run, tray string, d record.Day, est colony.Estimate) ration.Trouble {
	n, ok := a.trouble(r, tray, d, est)
	if !ok {
		return ration.Trouble{}
	}
	t := ration.Trouble{Milli: n.result.Feeding.OfRation, Look: n.result.Look, End: n.look.Day + troubleDays, Entry: n.look.ID}
	if n.result.Feeding.Kind == trouble.Hold {
		t.Milli, t.Hold = 0, n.result.Feeding.Cause
	}
	return t
}
