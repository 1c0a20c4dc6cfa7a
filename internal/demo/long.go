package demo

import (
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/oplog"
)

// FewestLong is how many operations a log of Long has at least.
const FewestLong = 100

// Long returns the log of a busier household, exactly n operations of it that
// end today or a few days before: three bins of two trays each that take turns,
// bowls and feedings every other day, looks, slips that are taken back, and a
// new batch every season. 20,000 operations come to about seven years. It is for
// measuring; n must be FewestLong or more.
func Long(seed uint64, today record.Day, n int) []oplog.Sealed {
	const aDay = 8 // operations; an ordinary day writes a little fewer, looks make up the rest
	s := &story{pen: newPen(seed, today)}
	ago := n/aDay - 1
	start := ago
	s.write(tamsin, moment{ago, 9, 0}, journal.Intent{Do: journal.DoHousehold, Set: map[string]any{"name": Name, "mass": "g", "temp": "C"}})
	for _, m := range []struct{ ent, name string }{{Tamsin, "Tamsin"}, {Odell, "Odell"}, {Wren, "Wren"}} {
		s.write(tamsin, moment{ago, 9, 1}, journal.Intent{Do: journal.DoMember, Entity: m.ent, Set: map[string]any{"name": m.name}})
	}
	var bins []*longBin
	for i, name := range []string{"Cellar", "Porch", "Shed"} {
		bins = append(bins, s.longBin(moment{ago, 9, 5 + 15*i}, name))
	}
	for ; ago >= 0 && len(s.ops) < n; ago-- {
		for i, b := range bins {
			s.longDay(b, ago, start-ago, i)
		}
		for i := 0; len(s.ops) < n/(start+1)*(start-ago+1); i++ {
			b := bins[i%len(bins)]
			s.look(odell, moment{ago, 20, 10 + i}, b.trays[b.top], s.ordinaryLook(ago%days))
		}
	}
	for len(s.ops) < n { // what the division above left over
		s.look(odell, moment{0, 21, len(s.ops) % 60}, bins[0].trays[bins[0].top], s.ordinaryLook(0))
	}
	return s.ops[:n]
}

// longBin is a bin whose two trays take turns.
type longBin struct {
	bin   string
	trays [2]string
	batch [2]string
	top   int
}

func (s *story) longBin(m moment, name string) *longBin {
	b := &longBin{bin: s.bin(tamsin, m, name, record.Hold, 2, 130, 210)}
	for i, tray := range []string{"Low", "High"} {
		m.minute += 5
		b.trays[i], b.batch[i] = s.tray(tamsin, m, b.bin, name+" "+tray, 450, 450, 150, 450)
	}
	b.top = 1
	s.stage(tamsin, m, b.batch[1], record.InUse)
	s.write(tamsin, m, journal.Intent{Do: journal.DoStack, Bin: b.bin, Set: map[string]any{"trays": []string{b.trays[0], b.trays[1]}}})
	s.write(tamsin, m, journal.Intent{Do: journal.DoWorms, Bin: b.bin, Tray: b.trays[1], Set: map[string]any{"move": "added", "mass": 800}})
	return b
}

// season is how long a tray of a long log is fed, in days.
const season = 90

func (s *story) longDay(b *longBin, ago, since, i int) {
	ph := tamsin
	if s.rng.IntN(2) == 0 {
		ph = odell
	}
	m := moment{ago, 17 + i%3, s.rng.IntN(40)}
	if since > 0 && since%season == 0 {
		s.turn(b, ph, m)
	}
	tray := b.trays[b.top]
	if (since+i)%3 == 0 {
		s.look(ph, m, tray, s.ordinaryLook(ago%days))
	}
	m.minute += 5
	if (since+i)%2 == 0 {
		s.placed(ph, m, 320, []journal.Share{{To: journal.ToTray, Tray: tray, Spot: record.Spots[s.rng.IntN(9)]}, {To: journal.ToFreezer, Grams: 60}})
		return
	}
	entry := s.write(ph, m, journal.Intent{Do: journal.DoFeed, Tray: tray, Spot: record.Spots[s.rng.IntN(9)], Items: s.meal(120)})
	switch s.rng.IntN(8) {
	case 0:
		s.write(ph, moment{ago, m.hour, m.minute + 1}, journal.Intent{Do: journal.DoUndo, Entity: entry})
	case 1, 2:
		s.write(odell, moment{ago, m.hour, m.minute + 8}, journal.Intent{Do: journal.DoEdit, Entity: entry, Set: map[string]any{"items": s.meal(110)}})
	}
}

// turn empties the resting tray, beds it on top and lets the other one rest.
func (s *story) turn(b *longBin, ph phone, m moment) {
	low := 1 - b.top
	s.stage(ph, m, b.batch[b.top], record.Resting)
	s.stage(ph, m, b.batch[low], record.Emptied)
	b.batch[low] = s.write(ph, m, journal.Intent{Do: journal.DoBatch, Tray: b.trays[low], Items: []record.Item{{Scrap: "cardboard", Grams: s.about(450), Cut: true}}})
	s.stage(ph, m, b.batch[low], record.InUse)
	s.write(ph, m, journal.Intent{Do: journal.DoStack, Bin: b.bin, Set: map[string]any{"trays": []string{b.trays[b.top], b.trays[low]}}})
	b.top = low
}
