package advice_test

import (
	"slices"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
)

func whatsWrong(h *record.Household, day record.Day, arg string) advice.TroubleView {
	return advice.New(h, day, advice.Phone{Device: phoneA, Member: ana}).Trouble(arg)
}

// troubled is the household with a look at the fed tray that chose signs.
func troubled(day record.Day, signs ...string) *record.Household {
	h := household()
	h.Looks = append(h.Looks, record.Look{
		ID: "look/trouble", Bin: kitchen, Tray: upper, Signs: signs, Who: record.Who{Member: ana}, Day: day, At: clock(day, "19:00"),
	})
	return h
}

func TestSignsOfTroubleGetCausesStepsAndADayToLookAgain(t *testing.T) {
	v := whatsWrong(household(), today, upper+",sour-smell,wet-bed,-rodents,of-a-newer-app")
	if !v.Found || v.Name != "Upper" || !slices.Equal(v.Chosen, []string{"sour-smell", "wet-bed"}) {
		t.Errorf("view of %q with %v; want Upper with the two signs seen", v.Name, v.Chosen)
	}
	if len(v.Findings) == 0 || v.Findings[0].Fit != "best" || len(v.Findings[0].Reasons) == 0 || len(v.Tonight) == 0 || v.Look == "" {
		t.Errorf("findings %+v, tonight %v, look %q; want a cause with reasons, steps and a day", v.Findings, v.Tonight, v.Look)
	}
	if v.Feeding.Kind != "hold" || v.Feeding.Cause != "sour" {
		t.Errorf("feeding %+v; want a hold for the sour smell", v.Feeding)
	}
}

func TestNothingIsDiagnosedFromNothing(t *testing.T) {
	for _, arg := range []string{upper, upper + ",", "tray/nowhere,sour-smell", ""} {
		v := whatsWrong(household(), today, arg)
		if len(v.Findings)+len(v.Tonight)+len(v.Stop) != 0 || v.Look != "" || v.Findings == nil || v.Tonight == nil || v.Unexplained == nil {
			t.Errorf("%q: %+v; want the signs alone, and lists that are lists", arg, v)
		}
		if len(v.Signs) < 20 {
			t.Errorf("%q: %d signs to choose from; want at least 20", arg, len(v.Signs))
		}
	}
}

func TestWhatALookNotedIsOfferedTicked(t *testing.T) {
	h := troubled(today, "ants")
	h.Looks[len(h.Looks)-1].Visitors = []string{"mites", "slugs"}
	if got := whatsWrong(h, today, upper).Seen; !slices.Equal(got, []string{"ants", "pale-mites"}) {
		t.Errorf("ticked %v; want mites and ants", got)
	}
}

func TestTroubleHoldsOrReducesTheRationUntilSomebodyLooksAgain(t *testing.T) {
	ration := func(h *record.Household, day record.Day) advice.RationView {
		return advice.New(h, day, advice.Phone{}).Ration(upper)
	}
	plain := ration(household(), today)
	if plain.Grams == 0 {
		t.Fatal("the household of the test is fed nothing without trouble")
	}
	if held := ration(troubled(today, "ammonia-smell"), today); held.Grams != 0 || held.Hold == nil || held.Hold.Cause != "ammonia" || held.Hold.Entry != "look/trouble" {
		t.Errorf("with ammonia: %d g, hold %+v; want a hold that names its look", held.Grams, held.Hold)
	}
	less := ration(troubled(today, "wet-bed", "much-liquid"), today)
	row := slices.ContainsFunc(less.Reasons, func(r advice.Reason) bool { return r.Code == "trouble" && r.Milli == 500 })
	if less.Grams >= plain.Grams || less.Grams == 0 || less.Hold != nil || !row {
		t.Errorf("with a wet bed: %d g of %d, rows %+v; want half, said in a row", less.Grams, plain.Grams, less.Reasons)
	}
	if odd := ration(troubled(today, "springtails"), today); odd.Grams != plain.Grams {
		t.Errorf("with springtails: %d g; want %d as without", odd.Grams, plain.Grams)
	}
	h := troubled(today-8, "wet-bed", "much-liquid")
	h.Looks = append(h.Looks, record.Look{ID: "look/well", Bin: kitchen, Tray: upper, Squeeze: "one-drop", Day: today, At: clock(today, "08:00")})
	if again := ration(h, today); slices.ContainsFunc(again.Reasons, func(r advice.Reason) bool { return r.Code == "trouble" }) {
		t.Errorf("after the look again: %+v; want no row for trouble", again.Reasons)
	}
}

func TestTheDayToLookAgainIsAJobUntilSomebodyDid(t *testing.T) {
	due := func(h *record.Household, day record.Day) bool {
		jobs := advice.New(h, day, advice.Phone{}).Today().Jobs
		return slices.ContainsFunc(jobs, func(j advice.Job) bool { return j.Kind == advice.JobAgain && j.Tray == upper })
	}
	h := troubled(today-8, "wet-bed")
	if due(h, today-8) || !due(h, today) {
		t.Errorf("look again due at once: %v, after eight days: %v; want no, yes", due(h, today-8), due(h, today))
	}
	h.Looks = append(h.Looks, record.Look{ID: "look/covered", Bin: kitchen, Tray: upper, Covered: true, Day: today, At: clock(today, "08:00")})
	if !due(h, today) {
		t.Error("covering the bed counted as looking again")
	}
	h.Looks = append(h.Looks, record.Look{ID: "look/well", Bin: kitchen, Tray: upper, Squeeze: "one-drop", Day: today, At: clock(today, "09:00")})
	if due(h, today) {
		t.Error("still due after somebody looked")
	}
}
