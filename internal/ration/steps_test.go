package ration_test

import (
	"testing"

	"trayside/internal/colony"
	"trayside/internal/ration"
	"trayside/internal/units"
)

func TestNoRiseOfMoreThanAFifthWithoutANamedCause(t *testing.T) {
	for _, c := range []struct {
		name  string
		last  ration.Last
		want  units.Grams
		cause string
	}{
		{"from 200 g", ration.Last{Grams: 200, Days: 3}, 225, ""},
		{"from 350 g", ration.Last{Grams: 350, Days: 3}, 400, ""},
		{"from 100 g, where a fifth is less than a step", ration.Last{Grams: 100, Days: 3}, 125, ""},
		{"from 200 g for two days, which is 300 for three", ration.Last{Grams: 200, Days: 2}, 350, ""},
		{"worms were added", ration.Last{Grams: 200, Days: 3, Cause: "worms-added"}, 450, "worms-added"},
		{"worms were added, which made no difference", ration.Last{Grams: 425, Days: 3, Cause: "worms-added"}, 450, ""},
		{"no ration before", ration.Last{}, 450, ""},
		{"a fall needs no cause", ration.Last{Grams: 900, Days: 3}, 450, ""},
	} {
		r := checked(t, with(established(), func(in *ration.Input) { in.Last = c.last }))
		if r.Grams != c.want || r.Cause != c.cause {
			t.Errorf("%s: got %d g for %q, want %d g for %q", c.name, r.Grams, r.Cause, c.want, c.cause)
		}
	}
}

func TestASmallChangeDoesNotMakeTheNumberFlutter(t *testing.T) {
	steady := func(low float64, last units.Grams) units.Grams {
		return checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 454, Low: low, High: 540}}
			in.Last = ration.Last{Grams: last, Days: 3}
		})).Grams
	}
	// 380 g of worms make 441 g of food, 410 g make 476 g, 340 g make 395 g.
	for _, c := range []struct {
		low        float64
		last, want units.Grams
	}{{380, 450, 450}, {410, 450, 450}, {340, 450, 400}, {340, 400, 400}, {410, 400, 450}} {
		if got := steady(c.low, c.last); got != c.want {
			t.Errorf("%.0f g of worms after %d g: got %d g, want %d", c.low, c.last, got, c.want)
		}
	}
}

func TestALastRationForOtherDaysIsNotKept(t *testing.T) {
	r := checked(t, with(established(), func(in *ration.Input) { in.Last = ration.Last{Grams: 400, Days: 2} }))
	if r.Grams != 450 {
		t.Errorf("after 400 g for two days, three days get %d g, want 450", r.Grams)
	}
}

func TestRoundingStaysBelowWhatTheSurfaceStillTakes(t *testing.T) {
	r := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 900, Low: 850, High: 950}}
		in.Estimate.Lefts = []colony.Left{{Tray: "top", Day: today - 3, Soft: 130}}
	}))
	if r.Grams != 400 { // 3 × 186 − 130 = 428
		t.Errorf("got %d g, want 400", r.Grams)
	}
}

func TestATrialIsOneOnlyWhileItRises(t *testing.T) {
	sure := func(last units.Grams) string {
		return checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.CleanLooks, in.Last = 4, ration.Last{Grams: last, Days: 3, Eaten: 450}
		})).Sure
	}
	if up, still := sure(450), sure(550); up != ration.Trial || still != ration.Learned {
		t.Errorf("sure is %q on the way up and %q once there", up, still)
	}
}

func TestRoundingIsNoFinerThanWhatIsKnown(t *testing.T) {
	wide := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 454, Low: 150, High: 900}}
	}))
	interval := wide.Likely.High - wide.Likely.Low
	if step := units.StepForPeople(wide.Grams, interval); wide.Grams%step != 0 || step*4 < interval {
		t.Errorf("%d g stated where only %+v is known", wide.Grams, wide.Likely)
	}
	tiny := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 300, Low: 30, High: 900}}
	}))
	if tiny.Grams != 25 && tiny.Grams != 50 {
		t.Errorf("a meal of about 35 g is rounded to %d g, want it kept", tiny.Grams)
	}
}

func TestRoundingAddsNoMoreThanAQuarterAndKeepsTheOrder(t *testing.T) {
	grams := func(low float64, last units.Grams) units.Grams {
		return checked(t, with(established(), func(in *ration.Input) {
			in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 420, Low: low, High: 800}} // known to about 400 g: steps of 100
			in.Last = ration.Last{Grams: last, Days: 3}
		})).Grams
	}
	for _, c := range []struct {
		name       string
		low        float64 // × 0.387 × 3
		last, want units.Grams
	}{
		{"150 g stay 150 and are not made 200", 129.4, 0, 150},
		{"nor kept at 200", 129.4, 200, 150},
		{"201 g leave the 150 of last time, a fifth at most", 172.9, 150, 175},
		{"180 g go to the next 100", 155, 0, 200},
	} {
		if got := grams(c.low, c.last); got != c.want {
			t.Errorf("%s: got %d g, want %d", c.name, got, c.want)
		}
	}
}

func TestThePinchStaysBelowTheRuleOfThumbsTop(t *testing.T) {
	r := checked(t, with(established(), func(in *ration.Input) {
		in.Estimate.CleanLooks, in.Last = 0, ration.Last{}
		in.Estimate.ByTray = map[string]colony.Span{"top": {Mid: 1, Low: 1, High: 1}}
		in.Estimate.Appetite = colony.Span{Mid: 1.5, Low: 1.5, High: 1.5}
	}))
	if most := float64(r.Rule.High) * 1.5; float64(r.Grams) > most {
		t.Errorf("%d g, and one and a half times the rule's top is %.1f g", r.Grams, most)
	}
}
