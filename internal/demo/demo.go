// Package demo invents a household and what it logged, so that every screen has
// something to show. Household is the small one that the program serves as its
// demo; Long is one with years of entries, for measuring.
//
// Everything comes from a seed and a day: the same two give the same bytes.
// Nobody in it exists.
package demo

import (
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/oplog"
)

// The members. Tamsin and Odell have phones; Wren is a child without one.
const (
	Tamsin = journal.KindMember + "/7a11f00d5eed0000000000000000a001"
	Odell  = journal.KindMember + "/7a11f00d5eed0000000000000000a002"
	Wren   = journal.KindMember + "/7a11f00d5eed0000000000000000a003"
)

// Name is the household's name.
const Name = "Kettle Lane"

// days is how long the household has kept its log.
const days = 120

var (
	tamsin = phone{Tamsin, "d0d0000000000000000000000000a001"}
	odell  = phone{Odell, "d0d0000000000000000000000000a002"}
)

// story is a household as it is written: the pen and what exists so far.
type story struct {
	*pen
	cellar, porch     string
	slate, fern, moss string
	mug, tub          string
	slateBatch        string
	fernBatch         string
}

// Household returns about 120 days of a household's log that end today, in the
// order in which it was written: two bins, feedings, looks, bowls, a frozen
// stock, and the mistakes that people make.
func Household(seed uint64, today record.Day) []oplog.Sealed {
	s := &story{pen: newPen(seed, today)}
	s.found()
	for ago := days - 3; ago >= 0; ago-- {
		s.happenings(ago)
		s.cellarDay(ago)
		s.porchDay(ago)
	}
	return s.ops
}

// found sets up the household and the Cellar bin with its first tray.
func (s *story) found() {
	start := days - 1
	at := func(minute int) moment { return moment{start, 10, minute} }
	s.write(tamsin, at(0), journal.Intent{Do: journal.DoHousehold, Set: map[string]any{"name": Name, "mass": "g", "temp": "C"}})
	for i, m := range []struct {
		ent, name string
		child     bool
	}{{Tamsin, "Tamsin", false}, {Odell, "Odell", false}, {Wren, "Wren", true}} {
		s.write(tamsin, at(1+i), journal.Intent{Do: journal.DoMember, Entity: m.ent, Set: map[string]any{"name": m.name, "child": m.child}})
	}
	s.cellar = s.bin(tamsin, at(6), "Cellar", record.Hold, 3, 120, 210)
	s.slate, s.slateBatch = s.tray(tamsin, at(9), s.cellar, "Slate", 400, 400, 140, 1300)
	s.write(tamsin, at(18), journal.Intent{Do: journal.DoStack, Bin: s.cellar, Set: map[string]any{"trays": []string{s.slate}}})
	s.mug = s.write(tamsin, at(25), journal.Intent{Do: journal.DoVessel, Set: map[string]any{"name": "full mug", "grams": 230}})
	s.tub = s.write(odell, at(31), journal.Intent{Do: journal.DoVessel, Set: map[string]any{"name": "green tub", "grams": 620}})
	s.write(tamsin, moment{start - 1, 17, 20}, journal.Intent{Do: journal.DoWorms, Bin: s.cellar, Tray: s.slate, Set: map[string]any{"move": "added", "mass": 500}})
	s.stage(tamsin, moment{start - 1, 17, 24}, s.slateBatch, record.InUse)
}

func (s *story) bin(ph phone, m moment, name string, goal record.Goal, every, coolest, warmest int) string {
	return s.write(ph, m, journal.Intent{Do: journal.DoBin, Set: map[string]any{
		"name": name, "species": string(record.Eisenia), "goal": string(goal), "feedEvery": every,
		"coolest": coolest, "warmest": warmest, "started": s.day(m.ago).String(),
	}})
}

// tray adds a tray with its label and beds it; it gives the tray and its batch.
func (s *story) tray(ph phone, m moment, bin, name string, width, depth, height, bedding int) (tray, batch string) {
	later := func(minutes int) moment { return moment{m.ago, m.hour, m.minute + minutes} }
	tray = s.write(ph, m, journal.Intent{Do: journal.DoTray, Bin: bin, Set: map[string]any{"name": name, "width": width, "depth": depth, "height": height}})
	s.write(ph, later(2), journal.Intent{Do: journal.DoClaim, Tray: tray, Set: map[string]any{"code": string(s.code())}})
	paper := s.about(bedding)
	batch = s.write(ph, later(5), journal.Intent{Do: journal.DoBatch, Tray: tray, Items: []record.Item{
		{Scrap: "cardboard", Grams: paper * 2 / 3, Cut: true}, {Scrap: "coir", Grams: paper / 3},
	}})
	return tray, batch
}

func (s *story) stage(ph phone, m moment, batch string, stage record.Stage) {
	s.write(ph, m, journal.Intent{Do: journal.DoStage, Entity: batch, Set: map[string]any{"stage": string(stage)}})
}
