package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// Room is a place through the year, before anybody has put a thermometer into a
// bed there: the means of its coldest and its warmest month. Both zero means
// that nobody said: an indoor room is assumed. Seasons are northern unless South.
type Room struct {
	Coolest, Warmest units.DeciCelsius
	South            bool
}

// Celsius returns what the calendar alone says of day d, °C.
func (r Room) Celsius(d record.Day) float64 {
	b := newBed(&Input{Coolest: r.Coolest, Warmest: r.Warmest, South: r.South})
	return b.season(d)
}
