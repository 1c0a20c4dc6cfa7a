package advice_test

import (
	"slices"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
	"trayside/internal/units"
)

func batch(h *record.Household, day record.Day, tray string) advice.BatchView {
	return advice.New(h, day, advice.Phone{}).Batch(tray)
}

func TestABatchTellsItsFillItsDatesAndItsCastings(t *testing.T) {
	v := batch(household(), today, upper)
	if !v.Found || v.Name != "Upper" || v.Stage != "feeding" || v.Batch != "batch/2" || v.HeightMM != 150 {
		t.Errorf("batch %+v; want Upper's, in feeding", v)
	}
	if v.FillMM <= 0 || v.FillMM > 150 || v.Squeeze == "" || v.Ready == nil || v.NextTray == nil || v.Castings.Mid <= 0 {
		t.Errorf("fill %d mm, squeeze %q, ready %v, castings %v; want all of them", v.FillMM, v.Squeeze, v.Ready, v.Castings)
	}
	if v.Ready != nil && !(v.Ready.First <= v.Ready.Day && v.Ready.Day <= v.Ready.Last && v.Ready.Day > today.String()) {
		t.Errorf("ready %+v; want a day to come within its range", v.Ready)
	}
	if c := v.Castings; !(c.Low < c.Mid && c.Mid < c.High) {
		t.Errorf("castings %+v; want a range", c)
	}
}

func TestAnEmptyTrayHasNoBatch(t *testing.T) {
	for _, tray := range []string{cellar, "tray/nowhere", ""} {
		if v := batch(household(), today, tray); v.Found || v.Harvests == nil || v.Members == nil {
			t.Errorf("%q: %+v; want nothing found, and lists", tray, v)
		}
	}
}

func TestWhatALookMeasuredCorrectsTheForecast(t *testing.T) {
	plain := batch(household(), today, upper)
	h := household()
	fill := int64(120)
	h.Looks = append(h.Looks, record.Look{ID: "look/fill", Bin: kitchen, Tray: upper, Fill: &fill, Squeeze: "crumbles", Day: today, At: clock(today, "20:00")})
	v := batch(h, today, upper)
	if v.FillMM != 120 || v.Squeeze != "crumbles" || v.MoistenML <= 0 {
		t.Errorf("fill %d mm, squeeze %q, %d ml of water; want 120, crumbles, some (%d mm before)", v.FillMM, v.Squeeze, v.MoistenML, plain.FillMM)
	}
	weight := int64(6_000)
	h.Looks[len(h.Looks)-1] = record.Look{ID: "look/weight", Bin: kitchen, Tray: upper, Weight: &weight, Day: today, At: clock(today, "20:00")}
	unknown := batch(h, today, upper)
	i := slices.IndexFunc(h.Trays, func(t record.Tray) bool { return t.ID == upper })
	h.Trays[i].Empty = 900
	if known := batch(h, today, upper); unknown.Squeeze != plain.Squeeze || known.Squeeze == plain.Squeeze {
		t.Errorf("squeeze %q without the empty tray's weight, %q with it; want %q, then wetter", unknown.Squeeze, known.Squeeze, plain.Squeeze)
	}
}

func TestLiquidPouredAwayTellsThatTheBedIsSoaked(t *testing.T) {
	plain := batch(household(), today, upper)
	h := household()
	liquid := int64(3_000)
	h.Looks = append(h.Looks, record.Look{ID: "look/liquid", Bin: kitchen, Tray: upper, Liquid: &liquid, Day: today, At: clock(today, "20:00")})
	v := batch(h, today, upper)
	if v.DripsML <= plain.DripsML || v.MoistenML > 0 {
		t.Errorf("3 l poured away: %d ml of drips (%d reckoned) and %d ml of water to add; want more, and none", v.DripsML, plain.DripsML, v.MoistenML)
	}
}

func TestHarvestsTeachTheHouseholdsOwnYield(t *testing.T) {
	h := household()
	h.Measures.Bucket = 5_000
	first := batch(h, today, upper)
	lowers := batch(h, today, lower)
	empty(h, "batch/1", today)
	heavy := record.Harvest{ID: "harvest/1", Bin: kitchen, Tray: lower, Batch: "batch/1", Mass: units.Grams(2 * lowers.Castings.Mid), Who: record.Who{Member: ben}, Day: today, At: clock(today, "10:00")}
	h.Harvests = []record.Harvest{heavy}
	v := batch(h, today, upper)
	if v.Yield.Seen != 1 || v.Yield.Milli <= 1000 || v.Yield.Milli > 2000 || v.Castings.Mid <= first.Castings.Mid {
		t.Errorf("yield %+v, castings %v before %v; want more after a heavy harvest", v.Yield, v.Castings, first.Castings)
	}
	if line := batch(h, today-1, lower).Harvests; len(line) != 0 {
		t.Errorf("harvests on the day before %+v; want none", line)
	}
	if line := batch(h, today, lower).Harvests; len(line) != 1 || line[0].Who != "Ben" || line[0].Grams != 2*lowers.Castings.Mid {
		t.Errorf("harvests %+v; want Ben's", line)
	}
	heavy.Mass, heavy.Buckets = 0, 4 // two litres in all
	h.Harvests = []record.Harvest{heavy}
	if v := batch(h, today, upper); v.Yield.Seen != 1 || v.Yield.Milli >= 1000 {
		t.Errorf("yield %+v; want less after 0.4 buckets", v.Yield)
	}
	rest := heavy
	rest.ID, rest.Mass, rest.Buckets = "harvest/2", units.Grams(lowers.Castings.Mid), 0
	h.Harvests = []record.Harvest{rest}
	alone := batch(h, today, upper).Yield
	h.Harvests = []record.Harvest{heavy, rest}
	if v := batch(h, today, upper); v.Yield.Seen != 1 || v.Yield.Milli <= alone.Milli {
		t.Errorf("yield %+v of a part weighed and a part counted; want more than the weighed part's %+v", v.Yield, alone)
	}
	if v := batch(h, today-1, upper); v.Yield.Seen != 0 {
		t.Errorf("yield %+v on the day before; want none", v.Yield)
	}
}

// empty says that a batch came to its end on a day.
func empty(h *record.Household, batch string, day record.Day) {
	i := slices.IndexFunc(h.Batches, func(b record.Batch) bool { return b.ID == batch })
	h.Batches[i].Emptied = &day
}

func TestAPartHarvestTeachesNothingUntilItsTrayIsEmptied(t *testing.T) {
	h := household()
	expected := batch(h, today, lower).Castings.Mid
	part := record.Harvest{ID: "harvest/1", Bin: kitchen, Tray: lower, Batch: "batch/1", Mass: units.Grams(expected / 5), Who: record.Who{Member: ben}, Day: today - 2, At: clock(today-2, "10:00")}
	h.Harvests = []record.Harvest{part}
	if v := batch(h, today, upper); v.Yield.Seen != 0 || v.Yield.Milli != 1000 {
		t.Errorf("yield %+v after a fifth was taken out of a tray in use; want nothing learned", v.Yield)
	}
	rest := part
	rest.ID, rest.Mass, rest.Day, rest.At = "harvest/2", units.Grams(expected-expected/5), today, clock(today, "10:00")
	h.Harvests = append(h.Harvests, rest)
	empty(h, "batch/1", today)
	whole := batch(h, today, upper).Yield
	if whole.Seen != 1 || whole.Milli < 900 || whole.Milli > 1100 {
		t.Errorf("yield %+v once all of what was expected is out; want it learned from one batch, and about as published", whole)
	}
	h.Harvests = h.Harvests[:1]
	if poor := batch(h, today, upper).Yield; poor.Seen != 1 || poor.Milli >= whole.Milli {
		t.Errorf("yield %+v of a tray that was emptied after a fifth; want less than %+v", poor, whole)
	}
}

func TestATrayThatIsReadyIsAJobToHarvest(t *testing.T) {
	due := func(day record.Day) bool {
		jobs := advice.New(household(), day, advice.Phone{}).Today().Jobs
		return slices.ContainsFunc(jobs, func(j advice.Job) bool { return j.Kind == advice.JobHarvest && j.Tray == lower })
	}
	ready := batch(household(), today, lower).Ready
	if ready == nil {
		t.Fatal("nobody knows when the resting tray is ready")
	}
	day, err := record.DayOf(ready.Day)
	if err != nil {
		t.Fatal(err)
	}
	if due(day-20) || !due(day+10) {
		t.Errorf("harvest due twenty days before %s: %v, ten days after: %v; want no, yes", day, due(day-20), due(day+10))
	}
}
