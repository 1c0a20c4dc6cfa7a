package advice_test

import (
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
)

func TestTheDrawingShowsWhatTheBatchSaysAndWhatWasMeasured(t *testing.T) {
	check := func(h *record.Household) map[string]int64 {
		t.Helper()
		a := advice.New(h, today, advice.Phone{})
		fills := map[string]int64{}
		for _, bin := range a.Today().Bins {
			for _, tier := range bin.Stack {
				fills[tier.ID] = tier.BeddingMM + tier.CastingsMM
				if want := a.Batch(tier.ID).FillMM; max(fills[tier.ID]-want, want-fills[tier.ID]) > 1 {
					t.Errorf("%s is drawn %d mm full, its batch says %d", tier.Name, fills[tier.ID], want)
				}
				if tier.CastingsMM > 0 && tier.CastingsG <= 0 {
					t.Errorf("%s: castings of %d mm weigh nothing", tier.Name, tier.CastingsMM)
				}
			}
		}
		return fills
	}
	h := household()
	before := check(h)
	fill := before[upper] + 30
	h.Looks = append(h.Looks, record.Look{ID: "look/fill", Bin: kitchen, Tray: upper, Fill: &fill, Day: today, At: clock(today, "07:00")})
	sortRecord(h)
	if after := check(h); after[upper] < fill-2 || after[upper] > fill+2 {
		t.Errorf("measured at %d mm, drawn at %d", fill, after[upper])
	}
}
