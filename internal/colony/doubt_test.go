package colony

import (
	"fmt"
	"slices"
	"testing"

	"trayside/internal/record"
)

// weekly is a bin that is fed 100 g a week and cleaned up five times, and then so
// many looks, a week after a meal each, that find most of it.
func weekly(odd int, answer string) *Input {
	in := roomy(record.Day(42 + 7*odd))
	in.Bin = "bin/weekly"
	for d := day0; d < in.Today; d += 7 {
		in.Meals = append(in.Meals, scraps("feeding/"+d.String(), d, "tray/low", 100))
		l := aLook(d+7, "tray/low", record.LeftNone)
		if d >= day0+42 {
			l.Leftovers, l.Unlogged = record.LeftMost, answer
		}
		l.ID = fmt.Sprintf("look/%d", d)
		in.Looks = append(in.Looks, l)
	}
	return in
}

func TestLeftoversThatNobodyExplainsAreTheWorms(t *testing.T) {
	could := func(in *Input) float64 { return Follow(in).Estimate().Eats["tray/low"].Mid }
	clean := could(weekly(0, ""))
	for _, c := range []struct {
		name      string
		odd       int
		answer    string
		low, high float64 // of what they could eat before
	}{
		{"one odd look is somebody's feeding until that is answered", 1, "", 0.7, 1.5},
		{"nobody fed, so it is the worms", 1, "no", 0, 0.5},
		{"a feeding that was told of is none of theirs", 4, "yes", 0.7, 2},
		{"four odd looks and no answer are", 4, "", 0, 0.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := Follow(weekly(c.odd, c.answer))
			if got := e.Estimate().Eats["tray/low"].Mid / clean; got < c.low || got > c.high {
				t.Errorf("they could eat %.2f of what they could, want %.2f to %.2f", got, c.low, c.high)
			}
			if e.least < 0.15*crowd {
				t.Errorf("the effective sample size fell to %.0f of %d", e.least, crowd)
			}
		})
	}
}

// Worms that were written down for good would never get a meal again that could
// show that they are there.
func TestWormsThatWereBlamedAreBelievedAgain(t *testing.T) {
	in := weekly(2, "no")
	low := Follow(in).Estimate().Eats["tray/low"].Mid
	in.Today += 35
	for d := in.Today - 35; d < in.Today; d += 7 {
		in.Meals = append(in.Meals, scraps("feeding/"+d.String(), d, "tray/low", 100))
		l := aLook(d+3, "tray/low", record.LeftNone)
		l.ID = fmt.Sprintf("look/%d", d)
		in.Looks = append(in.Looks, l)
	}
	if again := Follow(in).Estimate().Eats["tray/low"].Mid; again < 1.5*low {
		t.Errorf("after five clean looks they could eat %.0f g a day, %.0f before", again, low)
	}
}

func TestAMealOfYesterdayThatLiesThereAsksNothing(t *testing.T) {
	in := weekly(0, "")
	in.Meals = append(in.Meals, scraps("feeding/fresh", in.Today, "tray/low", 100))
	for after, asks := range map[record.Day]bool{1: false, 5: true} {
		late := *in
		late.Today += after
		l := aLook(late.Today, "tray/low", record.LeftMost)
		l.ID = "look/fresh"
		late.Looks = append(slices.Clone(in.Looks), l)
		if ask := Follow(&late).Estimate().Ask; (ask != nil) != asks {
			t.Errorf("%d days after the meal it asks %+v", after, ask)
		}
	}
}
