package advice

import (
	"slices"

	"trayside/internal/record"
)

// CatchUpView is what can be written down after the fact: by bin, the usual meal
// and the days on which nobody wrote one.
type CatchUpView struct {
	Day     string   `json:"day"`
	Mass    string   `json:"mass"`
	Bins    []Missed `json:"bins"`
	Members []Person `json:"members"`
}

// Missed is one bin that may have been fed without a line in the log.
type Missed struct {
	Bin   string     `json:"bin"`
	Name  string     `json:"name"`
	Tray  string     `json:"tray"` // that takes food
	Into  string     `json:"into"` // its name
	Last  string     `json:"last,omitempty"`
	Days  int        `json:"days"`  // since the last meal that was written down
	Usual int64      `json:"usual"` // g of a meal, by the last ones
	Items []ItemView `json:"items"` // of such a meal
	// Week lists up to three days of the last seven without a meal, oldest first,
	// as far apart as they lie: where "about three times this week" is written.
	Week []string `json:"week"`
}

// CatchUp lists the bins that take food.
func (a *Advice) CatchUp() CatchUpView {
	v := CatchUpView{Day: a.day.String(), Mass: a.mass(), Bins: []Missed{}, Members: a.people()}
	for _, b := range a.open() {
		tray := a.takes(b, a.day)
		if tray == "" {
			continue
		}
		m := Missed{Bin: b.ID, Name: b.Name, Tray: tray, Into: a.trayName(tray), Week: a.emptyDays(b.ID)}
		if last, ok := a.lastMeal(b.ID); ok {
			m.Last, m.Days = last.String(), int(a.day-last)
		}
		usual := (a.usualMeal(b.ID) + 5) / 10 * 10 // nobody remembers it finer
		if usual == 0 {
			usual = plainMeal
		}
		m.Usual, m.Items = int64(usual), a.itemViews(scale(a.usual, usual))
		v.Bins = append(v.Bins, m)
	}
	return v
}

// gap returns the days since a bin's last meal, if they are many more than it is
// fed at: twice its days and three, a week at least. 0 is no gap. Judgement.
func (a *Advice) gap(bin *record.Bin) int {
	last, ok := a.lastMeal(bin.ID)
	if since := int(a.day - last); ok && since >= max(7, 2*bin.FeedEvery+3) {
		return since
	}
	return 0
}

func (a *Advice) lastMeal(bin string) (last record.Day, ok bool) {
	for _, f := range slices.Backward(a.h.Feedings) {
		if f.Bin == bin && f.Day <= a.day {
			return f.Day, true
		}
	}
	return 0, false
}

// emptyDays returns days of the last seven, today left out, on which nothing was
// written as fed: at most three, oldest first, spread over those there are.
func (a *Advice) emptyDays(bin string) []string {
	var free []record.Day
	for d := a.day - 7; d < a.day; d++ {
		if !slices.ContainsFunc(a.h.Feedings, func(f record.Feeding) bool { return f.Bin == bin && f.Day == d }) {
			free = append(free, d)
		}
	}
	days := []string{}
	n := min(3, len(free))
	for i := range n {
		days = append(days, free[(2*i+1)*len(free)/(2*n)].String())
	}
	return days
}
