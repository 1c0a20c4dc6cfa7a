package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"

	"trayside/internal/advice"
	"trayside/internal/record"
)

// advised is what advise prints for scripts: the views that the phone draws.
type advised struct {
	Today   advice.TodayView   `json:"today"`
	Batches []advice.BatchView `json:"batches"`
	Asks    []advice.Ask       `json:"asks"` // of each tray at most one, and only where an answer could change the ration
	had     map[string]bool    // bins of which somebody has written down worms, by id
}

func runAdvise(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("advise", "trayside advise --entries FILE | --data DIR [--bin NAME] [--day 2026-11-25] [--json]\n\n"+
		"Says what may go into each bin, with the arithmetic, what stops feeding and until\n"+
		"when, when the meal should be gone, and what is to be done.", stderr)
	var from source
	from.define(f)
	bin := f.String("bin", "", "only this bin, by its name")
	on := f.String("day", "", "the day to advise for; by default today")
	asJSON := f.Bool("json", false, "print one JSON object with the views")
	if err := parse(f, args); err != nil {
		return err
	}
	if *on == "" {
		*on = time.Now().Format(time.DateOnly)
	}
	day, err := record.DayOf(*on)
	if err != nil {
		return usage("advise: --day: %v", err)
	}
	h, err := from.read(ctx, "advise", stderr)
	if err != nil {
		return err
	}
	a, err := adviseOf(h, day, *bin)
	if err != nil {
		return err
	}
	if *asJSON {
		return json.NewEncoder(stdout).Encode(a)
	}
	_, err = io.WriteString(stdout, harmless(a.words()))
	return err
}

// harmless takes out of a text what a terminal would obey: whoever may write names
// into the log could else write to the screen of the machine's owner.
func harmless(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && !unicode.IsGraphic(r) {
			return '·'
		}
		return r
	}, text)
}

// adviseOf gathers the views, of one bin if it is named.
func adviseOf(h *record.Household, day record.Day, bin string) (advised, error) {
	views := advice.New(h, day, advice.Phone{})
	a := advised{Today: views.Today(), Batches: []advice.BatchView{}, Asks: []advice.Ask{}, had: map[string]bool{}}
	for i := range h.Worms {
		if w := &h.Worms[i]; w.Day <= day {
			a.had[w.Bin] = true
		}
	}
	if bin != "" {
		var names []string
		id := ""
		for _, b := range a.Today.Bins {
			names = append(names, b.Name)
			if strings.EqualFold(b.Name, bin) || b.ID == bin {
				id = b.ID
			}
		}
		if id == "" {
			return a, usage("advise: there is no bin %q; there is %s", bin, listed(names))
		}
		a.Today.Bins = slices.DeleteFunc(a.Today.Bins, func(b advice.BinView) bool { return b.ID != id })
		a.Today.Jobs = slices.DeleteFunc(a.Today.Jobs, func(j advice.Job) bool { return j.Bin != id })
	}
	for _, b := range a.Today.Bins {
		for _, t := range b.Stack {
			if v := views.Batch(t.ID); v.Found {
				a.Batches = append(a.Batches, v)
			}
			if ask := views.Tray(t.ID).Ask; ask != nil {
				a.Asks = append(a.Asks, *ask)
			}
		}
	}
	return a, nil
}

func listed(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return strings.Join(names, ", ")
}

// words is the answer for people.
func (a advised) words() string {
	var b strings.Builder
	t := a.Today
	fmt.Fprintf(&b, "%s, %s\n", orWord(t.Home, "The household"), longDay(t.Day))
	if len(t.Bins) == 0 {
		b.WriteString("\nThere is no bin yet; trayside plan sizes one.\n")
	}
	p := printer{mass: t.Mass, temp: t.Temp, had: a.had}
	for _, bin := range t.Bins {
		b.WriteString("\n")
		p.bin(&b, bin)
		for _, v := range a.Batches {
			if v.Bin == bin.ID {
				p.batch(&b, v)
			}
		}
		for _, ask := range a.Asks {
			if i := slices.IndexFunc(bin.Stack, func(t advice.TierView) bool { return t.ID == ask.Tray }); i >= 0 {
				fmt.Fprintf(&b, "  %s\n", askSays(ask, bin.Stack[i].Name))
			}
		}
	}
	if len(t.Jobs) > 0 {
		b.WriteString("\nTo do\n")
		for _, j := range t.Jobs {
			fmt.Fprintf(&b, "  %s\n", jobSays(j))
		}
	}
	for _, bowl := range t.Bowls {
		fmt.Fprintf(&b, "\nWaiting: %s, %s\n", orWord(bowl.Name, "a bowl"), p.grams(bowl.Grams))
		for _, s := range bowl.Split {
			fmt.Fprintf(&b, "  %s %s\n", p.grams(s.Grams), shareSays(s))
		}
	}
	return b.String()
}

func orWord(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}

// longDay is a day as people say it.
func longDay(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return t.Format("Monday 2 January 2006")
}

func shortDay(day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return t.Format("Mon 2 Jan")
}
