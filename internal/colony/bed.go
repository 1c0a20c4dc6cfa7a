package colony

import (
	"trayside/internal/record"
	"trayside/internal/units"
)

// bed follows the temperature and moisture of a bed: the room's season, moved
// by readings that fade.
type bed struct {
	coolest, warmest float64 // °C, means of the coldest and the warmest month
	south            bool
	reading          record.Day
	off              float64 // °C above the season on the day of the reading
	read             bool
	ofRoom           bool // the reading was of the room
	named            bool // somebody said how warm the room gets
	squeeze          record.Day
	moist            float64
	squeezed         bool
	phRead           record.Day
	ph               float64 // 0 for never measured
}

// newBed returns the bed of a room nobody has read yet.
func newBed(in *Input) bed {
	lo, hi := in.Coolest, in.Warmest
	named := lo != 0 || hi != 0
	if !named {
		lo, hi = roomCoolest, roomWarmest
	}
	return bed{coolest: float64(lo) / 10, warmest: float64(hi) / 10, south: in.South, named: named}
}

// season returns what the calendar alone says, °C: coldest on 20 January,
// warmest on 21 July (south: the other way round), smooth between. A cubic
// stands in for the cosine, because it is the same on every machine; they
// differ by about a hundredth of the swing.
func (b *bed) season(d record.Day) float64 {
	const half = 182.625
	t := float64(d.YearDay()-20) / half // 0 coldest, 1 warmest, 2 coldest again
	if t < 0 {
		t += 2
	}
	if t > 1 {
		t = 2 - t
	}
	rise := float64(float64(t*t) * (3 - float64(2*t)))
	if b.south {
		rise = 1 - rise
	}
	return b.coolest + float64((b.warmest-b.coolest)*rise)
}

// celsius returns the bed's temperature on day d.
func (b *bed) celsius(d record.Day) float64 {
	c := b.season(d)
	if b.read && d >= b.reading {
		c += float64(b.off * units.Exp(-float64(d-b.reading)/readingFades))
	}
	return c
}

// How well a bed's temperature is known, standard errors in °C: judgement.
const (
	bedErr    = 0.5 // read in the bed
	roomErr   = 1.2 // read in the room: a bed is mostly within two degrees of it
	seasonErr = 2.0 // from the room's coldest and warmest months
	guessErr  = 3.0 // from nothing
)

// err returns the standard error of the bed's temperature on day d, °C: small
// after a reading, fading as the reading does.
func (b *bed) err(d record.Day) float64 {
	far := seasonErr
	if !b.named {
		far = guessErr
	}
	if !b.read || d < b.reading {
		return far
	}
	near := bedErr
	if b.ofRoom {
		near = roomErr
	}
	return far - float64((far-near)*units.Exp(-float64(d-b.reading)/readingFades))
}

// seen reports whether a reading of the last three days speaks for day d.
func (b *bed) seen(d record.Day) bool { return b.read && d >= b.reading && d-b.reading <= 3 }

// idealMoist is the moisture assumed when nobody squeezed, %: a wrung-out
// sponge, inside every species' best band.
const idealMoist = 78.0

// squeezes translates a squeeze test to moisture, % wet basis: judgement about
// paper bedding, where a wrung-out sponge is about 70–80 %.
var squeezes = map[string]float64{"crumbles": 55, "holds": 65, "one-drop": 72, "few-drops": 79, "runs": 88}

// moisture returns the bed's moisture on day d, % wet basis.
func (b *bed) moisture(d record.Day) float64 {
	if !b.squeezed || d < b.squeeze {
		return idealMoist
	}
	return idealMoist + float64((b.moist-idealMoist)*units.Exp(-float64(d-b.squeeze)/squeezeFades))
}

// drips is the moisture, %, that liquid to drain is a hint of where nobody felt the
// bed: between a few drops and running. How much came says little, since it
// gathers over weeks. Judgement.
const drips = 83.0

// felt reports whether somebody felt or measured the moisture within days.
func (b *bed) felt(d record.Day) bool {
	return b.squeezed && d >= b.squeeze && float64(d-b.squeeze) <= squeezeFades
}

// neutral is the pH a bed goes back to.
const neutral = 7.0

// acidity returns the bed's pH on day d, 0 if nobody measured it. A measurement
// fades as slowly as a squeeze test.
func (b *bed) acidity(d record.Day) float64 {
	if b.ph == 0 || d < b.phRead {
		return 0
	}
	return neutral + float64((b.ph-neutral)*units.Exp(-float64(d-b.phRead)/phFades))
}

// look takes in what a look read.
func (b *bed) look(l *record.Look) {
	if l.Temp != nil {
		b.read, b.reading = true, l.Day
		b.ofRoom = l.TempOf == "room"
		b.off = float64(*l.Temp)/10 - b.season(l.Day)
	}
	if m, ok := squeezes[l.Squeeze]; ok {
		b.squeezed, b.squeeze, b.moist = true, l.Day, m
	}
	if l.Meter != nil && *l.Meter > 0 {
		b.squeezed, b.squeeze, b.moist = true, l.Day, float64(*l.Meter)/10
	}
	if l.Liquid != nil && *l.Liquid > 0 && l.Squeeze == "" && l.Meter == nil {
		b.squeezed, b.squeeze, b.moist = true, l.Day, max(drips, b.moisture(l.Day))
	}
	if l.PH != nil && *l.PH > 0 {
		b.phRead, b.ph = l.Day, float64(*l.PH)/10
	}
}
