package demo

import (
	"trayside/internal/journal"
	"trayside/internal/record"
)

// The days before today on which something out of the ordinary happened. The
// plain days keep clear of them.
const (
	heatSpell   = 101 // the room got hot, a reading says so
	party       = 54  // far too much at once
	awayFrom    = 76  // nobody at home
	awayTo      = 68
	fernBedded  = 41
	fernFed     = 34
	slateRests  = 31
	wrongTap    = 25 // a slip, undone and written again
	porchBegins = 21
	outOfSight  = 12 // both fed the Cellar the same evening
	gransVisit  = 17
	corrected   = 9 // a weight, mended by the other phone
	overfull    = 7 // a bowl that was too much for one tray
	leftWaiting = 1 // a bowl that nobody has placed yet
)

// happenings writes what is told once.
func (s *story) happenings(ago int) {
	switch ago {
	case heatSpell:
		s.look(tamsin, moment{ago, 16, 10}, s.slate, journal.Intent{Temp: temp(282), TempOf: "bed", Squeeze: "one-drop", Note: "Opened the cellar window for the night."})
		s.look(odell, moment{ago, 21, 40}, s.slate, journal.Intent{Temp: temp(271), TempOf: "bed"})
	case heatSpell - 3:
		s.look(odell, moment{ago, 19, 5}, s.slate, journal.Intent{Temp: temp(236), TempOf: "bed", Leftovers: record.LeftSome})
	case party:
		s.write(odell, moment{ago, 22, 15}, journal.Intent{Do: journal.DoFeed, Tray: s.slate, Spot: "middle", Sure: true, Items: []record.Item{
			{Scrap: "watermelon-rind", Grams: 1250}, {Scrap: "veg-mixed", Grams: 480},
		}, Note: "Everything from the party. Seemed a pity to throw it out."})
	case party - 3:
		s.look(tamsin, moment{ago, 18, 30}, s.slate, journal.Intent{Leftovers: record.LeftMost, Squeeze: "runs", Smell: "sour", Spot: "middle"})
	case party - 7:
		s.look(odell, moment{ago, 18, 45}, s.slate, journal.Intent{Leftovers: record.LeftHalf, Squeeze: "few-drops", Smell: "sour", Spot: "middle"})
	case party - 11:
		s.look(tamsin, moment{ago, 8, 20}, s.slate, journal.Intent{Leftovers: record.LeftSome, Squeeze: "few-drops", Smell: "earthy"})
	case fernBedded:
		s.fern, s.fernBatch = s.tray(odell, moment{ago, 11, 0}, s.cellar, "Fern", 400, 400, 140, 1350)
		s.write(odell, moment{ago, 11, 12}, journal.Intent{Do: journal.DoStack, Bin: s.cellar, Set: map[string]any{"trays": []string{s.slate, s.fern}}})
	case fernFed:
		s.stage(tamsin, moment{ago, 18, 2}, s.fernBatch, record.InUse)
	case slateRests:
		s.stage(tamsin, moment{ago, 18, 20}, s.slateBatch, record.Resting)
	case wrongTap:
		slip := s.write(odell, moment{ago, 19, 10}, journal.Intent{Do: journal.DoFeed, Tray: s.fern, Spot: "left", Sure: true, Items: []record.Item{{Scrap: "coffee-grounds", Grams: 1500}}})
		s.write(odell, moment{ago, 19, 11}, journal.Intent{Do: journal.DoUndo, Entity: slip})
		s.write(odell, moment{ago, 19, 12}, journal.Intent{Do: journal.DoFeed, Tray: s.fern, Spot: "left", Items: []record.Item{{Scrap: "coffee-grounds", Grams: 150}}})
	case porchBegins:
		s.porchStarts(ago)
	case gransVisit:
		s.write(tamsin, moment{ago, 15, 30}, journal.Intent{Do: journal.DoFeed, Tray: s.fern, Spot: "front-right", Guest: "Gran", How: record.Unweighed, Items: []record.Item{{Scrap: "apple-core-peel", Grams: 0}}})
	case outOfSight:
		s.bothFeed(ago)
	case corrected:
		entry := s.write(odell, moment{ago, 18, 50}, journal.Intent{Do: journal.DoFeed, Tray: s.fern, Spot: "back-left", Items: []record.Item{{Scrap: "veg-mixed", Grams: 410}}})
		s.write(tamsin, moment{ago, 20, 5}, journal.Intent{Do: journal.DoEdit, Entity: entry, Set: map[string]any{"items": []record.Item{{Scrap: "veg-mixed", Grams: 140}}}})
	case overfull:
		s.placed(odell, moment{ago, 18, 15}, 420, []journal.Share{{To: journal.ToTray, Tray: s.fern, Spot: "right", Grams: 150}, {To: journal.ToFreezer, Grams: 200}})
	case leftWaiting:
		s.write(tamsin, moment{ago, 20, 15}, journal.Intent{Do: journal.DoBowl, Set: map[string]any{"name": "blue bowl"}, Items: []record.Item{
			{Scrap: "veg-mixed", Grams: 310, Cut: true}, {Scrap: "coffee-grounds", Grams: 180}, {Scrap: "banana-peel", Grams: 150},
		}})
	}
}

// porchStarts sets up the second bin.
func (s *story) porchStarts(ago int) {
	s.porch = s.bin(odell, moment{ago, 14, 0}, "Porch", record.Grow, 4, 110, 240)
	var batch string
	s.moss, batch = s.tray(odell, moment{ago, 14, 4}, s.porch, "Moss", 500, 350, 180, 1400)
	s.write(odell, moment{ago, 14, 15}, journal.Intent{Do: journal.DoStack, Bin: s.porch, Set: map[string]any{"trays": []string{s.moss}}})
	s.write(odell, moment{ago, 14, 30}, journal.Intent{Do: journal.DoWorms, Bin: s.porch, Tray: s.moss, Set: map[string]any{"move": "added", "mass": 350, "wide": true}})
	s.stage(odell, moment{ago, 14, 32}, batch, record.InUse)
}

// bothFeed is an evening on which two phones fed the Cellar out of each other's
// sight: both entries are composed before either phone heard of the other.
func (s *story) bothFeed(ago int) {
	one := s.compose(tamsin, moment{ago, 18, 20}, journal.Intent{Do: journal.DoFeed, Tray: s.fern, Spot: "back-right", Items: []record.Item{{Scrap: "veg-mixed", Grams: 130}}})
	two := s.compose(odell, moment{ago, 18, 55}, journal.Intent{Do: journal.DoFeed, Tray: s.fern, Spot: "middle", Member: Wren, Items: []record.Item{{Scrap: "banana-peel", Grams: 90}, {Scrap: "tea-leaves", Grams: 45}}})
	s.add(one)
	s.add(two)
}

// plain reports whether a day is left to the ordinary.
func plain(ago int) bool {
	if ago <= awayFrom && ago >= awayTo || ago <= party && ago > party-10 {
		return false
	}
	switch ago {
	case heatSpell, wrongTap, gransVisit, outOfSight, corrected, overfull, leftWaiting, 0:
		return false
	}
	return true
}

// cellarDay writes the Cellar's ordinary entries: a meal every third day or so,
// small at first, and a look about once a week.
func (s *story) cellarDay(ago int) {
	if !plain(ago) || (days-ago)%3 != 2 && s.rng.IntN(12) > 0 {
		return
	}
	if s.rng.IntN(14) == 0 {
		return // forgotten
	}
	tray, grams := s.slate, min(60+2*(days-ago), 190)
	if ago <= fernFed {
		tray, grams = s.fern, min(80+5*(fernFed-ago), 170)
	}
	ph := tamsin
	if s.rng.IntN(2) == 0 {
		ph = odell
	}
	hour, minute := 17+s.rng.IntN(3), s.rng.IntN(55)
	if s.rng.IntN(2) == 0 {
		s.look(ph, moment{ago, hour, minute}, tray, s.ordinaryLook(ago))
	}
	s.feedSomehow(ph, moment{ago, hour, minute + 2}, tray, grams)
}

// feedSomehow feeds a tray in one of the ways that people do.
func (s *story) feedSomehow(ph phone, m moment, tray string, grams int) {
	in := journal.Intent{Do: journal.DoFeed, Tray: tray, Spot: record.Spots[s.rng.IntN(len(record.Spots))], Items: s.meal(grams)}
	switch n := s.rng.IntN(20); {
	case n < 7:
		shares := []journal.Share{{To: journal.ToTray, Tray: tray, Spot: in.Spot}}
		if n == 0 {
			shares = append(shares, journal.Share{To: journal.ToFreezer, Grams: int64(s.about(160))})
		}
		s.placed(ph, m, grams, shares)
		return
	case n < 10:
		in.Vessel, in.How, in.Items = s.mug, record.ByVessel, []record.Item{{Scrap: "kitchen-mixed", Grams: 230}}
	case n < 12:
		in.How, in.Items = record.Unweighed, []record.Item{{Scrap: "kitchen-mixed", Grams: 0}}
	case n < 13:
		in.How, in.Items = record.AsAdvised, []record.Item{{Scrap: "kitchen-mixed", Grams: s.about(grams) / 25 * 25}}
	case n < 15:
		in.Member = Wren
	}
	s.write(ph, m, in)
}

// placed weighs a bowl upstairs and places it at the bin a while later, from
// the other phone as often as not. A first share without grams takes what the
// others leave; what no share takes goes to the waste.
func (s *story) placed(ph phone, m moment, grams int, shares []journal.Share) {
	var others int64
	for _, sh := range shares[1:] {
		others += sh.Grams
	}
	items := s.meal(grams + int(others))
	bowl := s.write(ph, moment{m.ago, m.hour - 1, m.minute}, journal.Intent{Do: journal.DoBowl, Items: items})
	total := int64(record.Total(items))
	if shares[0].Grams == 0 {
		shares[0].Grams = total - others
	} else if rest := total - others - shares[0].Grams; rest > 0 {
		shares = append(shares, journal.Share{To: journal.ToWaste, Grams: rest})
	}
	if s.rng.IntN(2) == 0 {
		ph = odell
	}
	s.write(ph, m, journal.Intent{Do: journal.DoPlace, Bowl: bowl, Shares: shares})
}

// ordinaryLook is a quick check on a day without news.
func (s *story) ordinaryLook(ago int) journal.Intent {
	in := journal.Intent{Leftovers: record.LeftNone}
	switch s.rng.IntN(6) {
	case 0:
		in.Leftovers = record.LeftSome
	case 1:
		in.Leftovers = record.LeftHard
	}
	if s.rng.IntN(2) == 0 {
		in.Squeeze = []string{"holds", "one-drop", "one-drop", "few-drops"}[s.rng.IntN(4)]
	}
	if s.rng.IntN(2) == 0 {
		in.Temp, in.TempOf = temp(160+int64(ago)*45/days+int64(s.rng.IntN(12))), "bed"
	}
	if s.rng.IntN(4) == 0 {
		in.Smell = "earthy"
	}
	return in
}

// porchDay writes the Porch's ordinary entries: little food, and mostly Wren's.
func (s *story) porchDay(ago int) {
	if ago >= porchBegins-2 || ago < 1 || (porchBegins-ago)%4 != 0 {
		return
	}
	m := moment{ago, 16, 10 + s.rng.IntN(40)}
	if ago < porchBegins-6 && ago > 1 {
		in := journal.Intent{Leftovers: record.LeftNone, Temp: temp(124 + int64(ago) + int64(s.rng.IntN(9))), TempOf: "bed"}
		if s.rng.IntN(2) == 0 {
			in.Leftovers = record.LeftSome
		}
		s.look(tamsin, m, s.moss, in)
	}
	m.minute += 3
	in := journal.Intent{Do: journal.DoFeed, Tray: s.moss, Spot: record.Spots[s.rng.IntN(len(record.Spots))], Items: s.meal(50 + 2*(porchBegins-ago))}
	if s.rng.IntN(3) > 0 {
		in.Member = Wren
	}
	s.write(tamsin, m, in)
}

func (s *story) look(ph phone, m moment, tray string, in journal.Intent) {
	in.Do, in.Tray = journal.DoLook, tray
	s.write(ph, m, in)
}

func temp(deci int64) *int64 { return &deci }
