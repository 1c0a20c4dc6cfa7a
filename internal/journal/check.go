package journal

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"trayside/internal/record"
	"trayside/internal/units"
)

// Limits of what a form takes. The log itself takes any value of the right
// shape, so these may change without making an old entry invalid.
const (
	mostGrams   = 200_000 // heavier than any household's bin; also where a slip is refused
	coldestBed  = -300    // 0.1 °C, colder than any room worms were kept in
	warmestBed  = 700     // 0.1 °C, a hot heap; higher is a slip of the thumb
	mostPercent = 100
	mostSide    = 3_000 // mm, longer than any bin that people reach into
	mostHandful = 1_000 // g; no hand holds as much dry bedding
	mostMl      = 500_000
	mostBetween = 100 // days between meals
)

// most is the largest number that a form takes for a field, where a larger one
// is surely a slip of the thumb: the unit of kinds.go.
var most = map[string]map[string]int64{
	KindLook:    {"liquid": 50_000, "fill": 2_000, "weight": mostGrams, "meter": 1_000, "ph": 140},
	KindSample:  {"scoops": 100, "ml": 10_000, "adults": 100_000, "young": 100_000, "cocoons": 100_000},
	KindHarvest: {"grams": mostGrams, "ml": mostMl, "buckets": 1_000, "worms": mostGrams},
	KindTray:    {"width": mostSide, "depth": mostSide, "height": mostSide, "empty": mostGrams},
	KindBin:     {"feedEvery": mostBetween},
	KindWorms:   {"mass": mostGrams, "share": mostPercent},
	KindVessel:  {"grams": mostGrams},

	KindHousehold: {"handful": mostHandful, "bucket": mostMl},
}

// degrees are the fields that hold a temperature.
var degrees = map[string][]string{KindLook: {"temp"}, KindBin: {"coolest", "warmest"}}

// bounded checks numbers against what a form takes.
func bounded(kind string, set fields) *Refusal {
	for _, name := range slices.Sorted(maps.Keys(set)) {
		if n, ok := set[name].(int64); ok {
			if r := inBounds(kind, name, name, n); r != nil {
				return r
			}
		}
	}
	return nil
}

func inBounds(kind, name, at string, n int64) *Refusal {
	if slices.Contains(degrees[kind], name) {
		if n < coldestBed || n > warmestBed {
			return refuse(CodeTemperature, at, "no bed or room has %d tenths of a degree Celsius; check the unit", n)
		}
		return nil
	}
	limit, ok := most[kind][name]
	switch {
	case !ok:
	case n < 0:
		return refuse(CodeNegative, at, "%d is less than nothing", n)
	case n > limit:
		return refuse(CodeField, at, "the %s of a %s is at most %d; check the unit", name, kind, limit)
	}
	return nil
}

// OtherScrap is the scrap of an item that the catalogue lacks; the item then
// has a class, and the name that people gave it.
const OtherScrap = "other"

// The functions below check a reference against the record. While the phone is
// still reading there is none, and whatever has the right form passes.

func (w *writer) checkTray(field, ent string, inBin bool) (record.Tray, *Refusal) {
	if !names(ent, KindTray) {
		return record.Tray{}, refuse(CodeTray, field, "no tray was named; open one or scan its label")
	}
	if w.Record == nil {
		return record.Tray{ID: ent}, nil
	}
	i := slices.IndexFunc(w.Record.Trays, func(t record.Tray) bool { return t.ID == ent })
	if i < 0 {
		return record.Tray{}, refuse(CodeTray, field, "this household has no such tray; open one of its own or scan its label")
	}
	t := w.Record.Trays[i]
	if t.Gone && !inBin {
		return t, refuse(CodeTrayGone, field, "the tray %s was removed; choose another, or bring it back first", t.Name)
	}
	return t, nil
}

func (w *writer) checkBin(field, ent string) *Refusal {
	if !names(ent, KindBin) {
		return refuse(CodeBin, field, "no bin was named")
	}
	if w.Record != nil && !slices.ContainsFunc(w.Record.Bins, func(b record.Bin) bool { return b.ID == ent && !b.Gone }) {
		return refuse(CodeBin, field, "this household has no such bin")
	}
	return nil
}

func (w *writer) checkSpot(field, spot string) *Refusal {
	if spot != "" && !slices.Contains(record.Spots[:], spot) {
		return refuse(CodeSpot, field, "a tray has no place %q; it has nine, from back-left to front-right", spot)
	}
	return nil
}

// who settles who did it: a member, a guest, or the phone's own member.
func (w *writer) who(in Intent, set fields) *Refusal {
	switch guest := strings.TrimSpace(in.Guest); {
	case in.Member != "":
		if !names(in.Member, KindMember) {
			return refuse(CodeMember, "member", "no member of the household was named")
		}
		if w.Record != nil && !slices.ContainsFunc(w.Record.Members, func(m record.Member) bool { return m.ID == in.Member }) {
			return refuse(CodeMember, "member", "this household has no such member; choose one or name a guest")
		}
		set["member"] = in.Member
	case guest != "":
		set["guest"] = guest
	default:
		set["member"] = w.Member
	}
	return nil
}

// amount checks the items of an amount and returns them tidied. Not weighed is
// the one amount that may be nothing; what is in the bin already is taken
// however much it is.
func amount(field string, list []record.Item, how record.How, inBin bool) ([]record.Item, *Refusal) {
	if len(list) == 0 {
		return nil, refuse(CodeEmpty, field, "nothing was weighed yet; add at least one kind of scraps")
	}
	if len(list) > maxItems {
		return nil, refuse(CodeTooMany, field, "an amount holds at most %d kinds, this one has %d; put some together as \"other\"", maxItems, len(list))
	}
	tidy := make([]record.Item, len(list))
	var total units.Grams
	for i, it := range list {
		at := field + "." + strconv.Itoa(i)
		it.Scrap, it.Class, it.Name = strings.TrimSpace(it.Scrap), strings.TrimSpace(it.Class), strings.TrimSpace(it.Name)
		switch {
		case it.Grams < 0:
			return nil, refuse(CodeNegative, at+".g", "%d g is less than nothing; tare the scale and weigh again", it.Grams)
		case it.Grams > mostGrams && !inBin:
			return nil, refuse(CodeTooMuch, at+".g", "%d g is more than anybody carries to a worm bin; check the unit", it.Grams)
		case it.Scrap == "":
			return nil, refuse(CodeScrap, at+".scrap", "say what it is, or choose \"other\" and its class")
		case it.Scrap == OtherScrap && it.Class == "":
			return nil, refuse(CodeScrap, at+".class", "for \"other\", choose the class it comes nearest to")
		case len(it.Name) > maxName:
			return nil, refuse(CodeField, at+".name", "this name is too long; %d letters fit", maxName)
		}
		tidy[i] = it
		total += it.Grams
	}
	if total == 0 && how != record.Unweighed {
		return nil, refuse(CodeZero, field, "the scale shows nothing; weigh it, or say \"some, not weighed\"")
	}
	if total > mostGrams && !inBin {
		return nil, refuse(CodeTooMuch, field, "%d g is more than anybody carries to a worm bin; check the unit", total)
	}
	return tidy, nil
}

// required checks the fields that a new entity of a kind cannot do without.
func required(kind string, set fields, list ...string) *Refusal {
	for _, name := range list {
		if blank(set[name]) {
			return refuse(CodeMissing, name, "a new %s needs its %s", kind, name)
		}
	}
	return nil
}

// TooFar says what is wrong with a value that has its field's shape but that no
// form would take, such as a bed of ninety degrees; "" if nothing is.
func TooFar(kind, name string, value json.RawMessage) string {
	k, _ := KindNamed(kind)
	if f, _ := k.Field(name); f.Type == Date {
		if d, ok := date(value); ok && d != nil {
			return TooEarly(*d)
		}
		return ""
	}
	if n, ok := integer(value); ok {
		if r := inBounds(kind, name, name, n); r != nil {
			return r.Detail
		}
		return ""
	}
	list, ok := amounts(value, nil)
	if !ok {
		return ""
	}
	for _, it := range list {
		if it.Grams > mostGrams || it.Grams < -mostGrams {
			return fmt.Sprintf("%d g is more than anybody carries to a worm bin; check the unit", it.Grams)
		}
	}
	return ""
}

// TooEarly says what is wrong with a day that the record does not take; "" if
// nothing is.
func TooEarly(d record.Day) string {
	if d < record.Earliest {
		return fmt.Sprintf("%v lies before %v; check the year", d, record.Earliest)
	}
	return ""
}
