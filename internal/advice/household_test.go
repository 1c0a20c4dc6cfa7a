package advice_test

import (
	"fmt"

	"trayside/internal/record"
	"trayside/internal/units"
)

// The household of these tests is invented: two bins, a stack of two trays in a
// kitchen that has been fed for three months and a single tray in a cold shed
// that was started three weeks ago.
const (
	today = record.Day(20760) // 2026-11-03
	start = today - 92

	kitchen, shed   = "bin/kitchen", "bin/shed"
	lower, upper    = "tray/lower", "tray/upper"
	alone, cellar   = "tray/alone", "tray/cellar"
	ana, ben, child = "member/ana", "member/ben", "member/kim"
	phoneA, phoneB  = "phone-a", "phone-b"
	lowerCode       = "3DX5S4YH7"
	lunch           = "bowl/b1"
	looksEvery      = 7
	meal            = 3
)

func on(d record.Day) *record.Day { return &d }

func clock(d record.Day, hour string) string { return d.String() + "T" + hour + ":00+01:00" }

func household() *record.Household {
	h := &record.Household{
		ID: "home", Name: "Mill Lane", Zone: "Europe/Berlin", Mass: record.MassGrams, Temp: record.TempCelsius,
		Members: []record.Member{{ID: ana, Name: "Ana"}, {ID: ben, Name: "Ben"}, {ID: child, Name: "Kim", Child: true}, {ID: "member/zoe", Name: "Zoe", Gone: true}},
		Bins: []record.Bin{
			{ID: kitchen, Name: "Kitchen", Species: record.Eisenia, Goal: record.Grow, FeedEvery: meal, RoomCoolest: 180, RoomWarmest: 230, Started: start, Stack: []string{lower, upper}},
			{ID: shed, Name: "Shed", Species: record.NotSure, Goal: record.Hold, FeedEvery: 4, RoomCoolest: 60, RoomWarmest: 200, Started: today - 21, Stack: []string{alone}},
		},
		Trays: []record.Tray{
			{ID: lower, Bin: kitchen, Name: "Lower", Width: 350, Depth: 350, Height: 150, Code: lowerCode},
			{ID: upper, Bin: kitchen, Name: "Upper", Width: 350, Depth: 350, Height: 150},
			{ID: alone, Bin: shed, Name: "Shed", Width: 400, Depth: 300, Height: 180},
			{ID: cellar, Bin: kitchen, Name: "Cellar", Width: 350, Depth: 350, Height: 150, Gone: true},
		},
		Batches: []record.Batch{
			{ID: "batch/1", Tray: lower, Bedding: []record.Item{{Scrap: "cardboard", Grams: 600}}, Bedded: start - 2, Feeding: on(start), Resting: on(today - 14)},
			{ID: "batch/2", Tray: upper, Bedding: []record.Item{{Scrap: "cardboard", Grams: 500}}, Bedded: today - 20, Feeding: on(today - 14)},
			{ID: "batch/3", Tray: alone, Bedding: []record.Item{{Scrap: "cardboard", Grams: 700}}, Bedded: today - 24, Feeding: on(today - 21)},
		},
		Worms: []record.WormEvent{
			{ID: "worms/1", Bin: kitchen, Tray: lower, Move: record.WormsAdded, Mass: 500, Day: start, At: clock(start, "10:00")},
			{ID: "worms/2", Bin: shed, Tray: alone, Move: record.WormsAdded, Mass: 450, Wide: true, Day: today - 21, At: clock(today-21, "11:00")},
		},
		Vessels: []record.Vessel{{ID: "vessel/mug", Name: "Mug", Grams: 180}, {ID: "vessel/tub", Name: "Tub", Grams: 700}},
		Claims:  []record.LabelClaim{{Code: lowerCode, Tray: lower, Day: start}},
		Bowls: []record.Bowl{
			{ID: lunch, Name: "Lunch", Items: []record.Item{{Scrap: "carrot", Grams: 220}, {Scrap: "lettuce", Grams: 180}}, How: record.ByScale, Who: record.Who{Member: ben}, Logger: ben, Day: today, At: clock(today, "12:30")},
		},
		Freezer: []record.Freezing{
			{ID: "freezing/1", Items: []record.Item{{Scrap: "melon-rind", Grams: 900}}, Day: today - 9, At: clock(today-9, "20:00")},
			{ID: "freezing/2", Items: []record.Item{{Scrap: "melon-rind", Grams: -300}}, Day: today - 4, At: clock(today-4, "20:00")},
		},
	}
	n := 0
	for d := start + 3; d < today; d += meal {
		tray := lower
		if d >= today-14 {
			tray = upper
		}
		n++
		f := record.Feeding{
			ID: fmt.Sprintf("feeding/%03d", n), Bin: kitchen, Tray: tray, Spot: record.Spots[n%9], How: record.ByScale, Day: d, At: clock(d, "18:30"),
			Who: record.Who{Member: ana}, Logger: ana, Device: phoneA, Stamp: int64(d) * 86400000,
			Items: []record.Item{{Scrap: "carrot", Grams: units.Grams(120 + n%4*30)}, {Scrap: "coffee-grounds", Grams: 60}, {Scrap: "orange-peel", Grams: units.Grams(n % 3 * 20)}},
		}
		switch n % 7 {
		case 2: // the child fed, a grown-up's phone wrote it down
			f.Who, f.Logger, f.Device = record.Who{Member: child}, ben, phoneB
		case 4:
			f.How, f.Items, f.Spot = record.Unweighed, []record.Item{{Scrap: "kitchen-mixed"}}, ""
		case 6:
			f.Who, f.How = record.Who{Guest: "Neighbour"}, record.ByVessel
		}
		h.Feedings = append(h.Feedings, f)
	}
	for d := start + 9; d < today-1; d += looksEvery {
		tray, left := lower, record.LeftNone
		if d >= today-14 {
			tray = upper
		}
		if d%3 == 0 {
			left = record.LeftSome
		}
		temp := units.DeciCelsius(190 + int64(d%5)*8)
		h.Looks = append(h.Looks, record.Look{ID: "look/" + d.String(), Bin: kitchen, Tray: tray, Leftovers: left, Squeeze: "few-drops", Temp: &temp, TempOf: "bed", Smell: "earthy", Who: record.Who{Member: ana}, Logger: ana, Day: d, At: clock(d, "08:00")})
	}
	for d := today - 18; d < today; d += 5 {
		h.Feedings = append(h.Feedings, record.Feeding{
			ID: "feeding/shed-" + d.String(), Bin: shed, Tray: alone, How: record.ByScale, Day: d, At: clock(d, "17:00"), Who: record.Who{Member: ben}, Logger: ben, Device: phoneB,
			Items: []record.Item{{Scrap: "apple-core-peel", Grams: 90}, {Scrap: "kale", Grams: 40}},
		})
	}
	sortRecord(h)
	return h
}
