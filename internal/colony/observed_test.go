package colony

import (
	"slices"
	"testing"

	"trayside/internal/record"
	"trayside/internal/units"
)

// How far what people write down is believed.

// A thermometer in the room says less of the bed than one in it, and either says
// less from day to day, until only the season is left.
func TestAReadingOfTheRoomIsWiderThanOneOfTheBedAndBothWiden(t *testing.T) {
	read := func(of string) bed {
		b := newBed(&Input{Coolest: 150, Warmest: 230})
		temp := units.DeciCelsius(250)
		b.look(&record.Look{Day: day0, Temp: &temp, TempOf: of})
		return b
	}
	inBed, inRoom := read("bed"), read("room")
	near(t, "°C in the bed", inBed.celsius(day0), 25, 1e-9)
	near(t, "°C in the bed, by the room", inRoom.celsius(day0), 25, 1e-9)
	for d := day0; d < day0+12; d++ {
		if inBed.err(d) >= inRoom.err(d) || inRoom.err(d) >= seasonErr {
			t.Errorf("%d d on the bed is known to %.2f °C by its own reading and to %.2f by the room's, of %.2f by the season", d-day0, inBed.err(d), inRoom.err(d), seasonErr)
		}
		if inBed.err(d+1) <= inBed.err(d) || inRoom.err(d+1) <= inRoom.err(d) {
			t.Errorf("from day %d to the next the reading does not lose weight", d-day0)
		}
	}
}

func TestWormsAddedWithBeddingAreKnownLessWell(t *testing.T) {
	in := aBin(0)
	weighed := Follow(in).Estimate().Live
	in.Worms[0].Wide = true
	byEye := Follow(in).Estimate().Live
	if byEye.High/byEye.Low < 1.3*weighed.High/weighed.Low {
		t.Errorf("with bedding they are %v, weighed clean %v; want a far wider span", byEye, weighed)
	}
}

func TestWormsTakenOutAreNoLongerThere(t *testing.T) {
	in := aBin(0)
	in.Worms = append(in.Worms, record.WormEvent{Move: record.WormsRemoved, Mass: 150, Day: day0, At: "1"})
	near(t, "g of 450 after 150 were taken out", Follow(in).Estimate().Live.Mid, 300, 0.03)
}

// The particles hold a meal by scale within a fiftieth, and one by eye far apart,
// though not as far as its error says: the household's other meals tell of it too.
func TestAMealByEyeIsKnownLessWellThanOneByScale(t *testing.T) {
	spread := func(err float64) float64 {
		in := aBin(0)
		in.Meals = []Meal{scraps("feeding/1", day0, "tray/low", 400)}
		in.Meals[0].Err = err
		e := Follow(in)
		var fed []float64
		for i := range e.particles {
			fed = append(fed, e.particles[i].fed(0, e.newest, e.soft[0]))
		}
		slices.Sort(fed)
		return fed[len(fed)*9/10] / fed[len(fed)/10]
	}
	near(t, "ninth tenth over first, by scale", spread(0.02), units.Exp(2*1.2816*0.02), 0.02)
	if by := spread(0.4); by < 1.6 || by > units.Exp(2*1.2816*0.4) {
		t.Errorf("by eye the ninth tenth is %.2f of the first, want 1.6 and more", by)
	}
}
