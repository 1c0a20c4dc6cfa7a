package demo_test

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"trayside/internal/demo"
	"trayside/internal/journal"
	"trayside/internal/label"
	"trayside/internal/record"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

func fold(ops []oplog.Sealed) *replica.Replica {
	rep := replica.New(journal.Schema())
	for _, op := range ops {
		rep.Add(op)
	}
	return rep
}

func dayOf(t testing.TB, s string) record.Day {
	t.Helper()
	d, err := record.DayOf(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestTheDemoHouseholdHasSomethingForEveryScreen(t *testing.T) {
	today := dayOf(t, "2026-11-25")
	for seed := range uint64(8) {
		ops := demo.Household(seed, today)
		rep := fold(ops)
		h := journal.Read(rep)
		if len(h.Aside) != 0 || h.Unread != 0 || len(h.Asks) != 0 {
			t.Fatalf("seed %d: asides %v, unread %d, questions %v; want none", seed, h.Aside, h.Unread, h.Asks)
		}
		if len(h.Bins) != 2 || len(h.Trays) != 3 || len(h.Members) != 3 || len(h.Vessels) != 2 {
			t.Errorf("seed %d: %d bins, %d trays, %d members, %d vessels; want 2, 3, 3, 2", seed, len(h.Bins), len(h.Trays), len(h.Members), len(h.Vessels))
		}
		if len(h.Feedings) < 35 || len(h.Looks) < 20 || len(h.Undone.Feedings) != 1 {
			t.Errorf("seed %d: %d feedings, %d looks, %d undone; want at least 35, at least 20, 1", seed, len(h.Feedings), len(h.Looks), len(h.Undone.Feedings))
		}
		cellar := h.Bins[0]
		if len(cellar.Stack) != 2 || trayNamed(h, "Slate").ID != cellar.Stack[0] || trayNamed(h, "Fern").ID != cellar.Stack[1] {
			t.Errorf("seed %d: Cellar's stack is %v; want Slate below Fern", seed, cellar.Stack)
		}
		for _, tray := range h.Trays {
			if _, err := label.Parse(tray.Code); err != nil {
				t.Errorf("seed %d: tray %s: %v", seed, tray.Name, err)
			}
		}
		var waits int64
		for _, b := range h.Bowls {
			waits += int64(record.Total(h.Left(b)))
		}
		if waits != 640 {
			t.Errorf("seed %d: %d g wait in bowls; want 640", seed, waits)
		}
		var frozen int64
		for _, f := range h.Freezer {
			frozen += int64(record.Total(f.Items))
		}
		if frozen < 150 {
			t.Errorf("seed %d: %d g in the freezer; want a stock", seed, frozen)
		}
		if last := h.Feedings[len(h.Feedings)-1].Day; last > today || h.Feedings[0].Day < today-120 {
			t.Errorf("seed %d: feedings from %v to %v; want within the 120 days before %v", seed, h.Feedings[0].Day, last, today)
		}
		devices := map[string]bool{}
		for _, op := range ops {
			devices[op.Op.Dev] = true
		}
		if len(devices) != 2 {
			t.Errorf("seed %d: written on %d phones; want 2", seed, len(devices))
		}
	}
}

func trayNamed(h *record.Household, name string) record.Tray {
	for _, t := range h.Trays {
		if t.Name == name {
			return t
		}
	}
	return record.Tray{}
}

func TestOneEveningTwoPhonesFedOutOfSight(t *testing.T) {
	today := dayOf(t, "2026-11-25")
	h := journal.Read(fold(demo.Household(1, today)))
	var pair []record.Feeding
	for _, f := range h.Feedings {
		if f.Day == today-12 && f.Bin == h.Bins[0].ID {
			pair = append(pair, f)
		}
	}
	if len(pair) != 2 || pair[0].Device == pair[1].Device {
		t.Fatalf("Cellar's feedings of that day: %+v; want two from two phones", pair)
	}
	for i, f := range pair {
		for _, known := range f.Knew {
			if known == pair[1-i].ID {
				t.Errorf("feeding %d knew of the other", i)
			}
		}
	}
}

func TestTheDemoDependsOnSeedAndDayAlone(t *testing.T) {
	today := dayOf(t, "2026-11-25")
	one, two := demo.Household(7, today), demo.Household(7, today)
	if len(one) != len(two) {
		t.Fatalf("%d and %d operations from one seed", len(one), len(two))
	}
	for i := range one {
		if !bytes.Equal(one[i].Bytes, two[i].Bytes) {
			t.Fatalf("operation %d differs:\n%s\n%s", i, one[i].Bytes, two[i].Bytes)
		}
	}
	if other := demo.Household(8, today); bytes.Equal(one[len(one)-1].Bytes, other[len(other)-1].Bytes) {
		t.Error("two seeds gave the same last operation")
	}
}

func TestALongLogHasTheLengthAskedFor(t *testing.T) {
	today := dayOf(t, "2026-11-25")
	ops := demo.Long(3, today, 2000)
	if len(ops) != 2000 {
		t.Fatalf("%d operations; want 2000", len(ops))
	}
	shuffled := append([]oplog.Sealed(nil), ops...)
	rand.New(rand.NewPCG(1, 2)).Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
	h := journal.Read(fold(shuffled))
	if len(h.Aside) != 0 || h.Unread != 0 {
		t.Errorf("asides %v, unread %d; want none", h.Aside, h.Unread)
	}
	first, last := h.Feedings[0].Day, h.Feedings[len(h.Feedings)-1].Day
	if span := last - first; span < 200 || last > today {
		t.Errorf("feedings over %d days up to %v; want several hundred, not past %v", span, last, today)
	}
}
