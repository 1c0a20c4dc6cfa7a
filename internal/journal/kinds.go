package journal

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"

	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/sync/replica"
)

// The kinds of entities in a household's log. An entity's name is its kind, a
// slash and an identifier; the household itself is the one entity Home.
const (
	KindHousehold = "household"
	KindMember    = "member"
	KindBin       = "bin"
	KindTray      = "tray"
	KindLabel     = "label" // a label was put on a tray
	KindStack     = "stack" // the trays of a bin were put in this order
	KindBatch     = "batch"
	KindWorms     = "worms"
	KindFeeding   = "feeding"
	KindLook      = "look"
	KindBowl      = "bowl"
	KindFreezing  = "freezing"
	KindDiscard   = "discard"
	KindVessel    = "vessel"
	KindSample    = "sample"  // worms counted in a few scoops
	KindHarvest   = "harvest" // castings taken out
	KindPhoto     = "photo"   // what a picture shows and how it is found; not the picture
	KindRule      = "rule"    // the household's own verdict on a scrap

	Home = "household/home"
)

// Type is the shape that a field's value must have. Shapes never get narrower:
// what one version wrote, every later version reads.
type Type uint8

// The types. Quantities are integers in the unit that the field's note names.
const (
	Text    Type = iota // at most Max bytes
	Word                // one of Words
	Natural             // 0 to 2^40
	Integer             // -2^40 to 2^40
	Truth               // true or false
	Date                // 2006-01-02
	Ref                 // name of an entity of the kind Of
	Refs                // at most Max names of entities of the kind Of
	Amounts             // at most Max items with scrap, class, name, g ≥ 0, cut, frozen
	Moves               // the same; g may be negative, which takes out
	Marks               // at most Max of Words; any short words where there are none
)

// Field is one field of a kind.
type Field struct {
	Name  string
	Type  Type
	Max   int      // bytes of a Text, entries of a list
	Of    string   // kind that a Ref or Refs names
	Words []string // allowed words of a Word
	Note  string   // unit and meaning
}

// Kind is one kind of entity: who may write it and what it holds.
type Kind struct {
	Name   string
	Keeper bool // only a keeper's phone may push it
	Fields []Field
}

// Sizes of what people type, in bytes. A household's longest names fit several
// times over; together with the list limits an operation stays below 8 KiB.
const (
	maxName  = 120
	maxNote  = 2000
	maxID    = 96
	maxItems = 24
	maxTrays = 24
	maxKnew  = 16
	maxOver  = 32
	maxMarks = 16
	maxMark  = 40
	hashLong = 64 // hexadecimal digits of a SHA-256
	limitInt = 1 << 40
)

var (
	whoFields = []Field{
		{Name: "member", Type: Ref, Of: KindMember, Note: "who did it"},
		{Name: "guest", Type: Text, Max: maxName, Note: "or a guest by name"},
	}
	binRef  = Field{Name: "bin", Type: Ref, Of: KindBin}
	trayRef = Field{Name: "tray", Type: Ref, Of: KindTray}
	bowlRef = Field{Name: "bowl", Type: Ref, Of: KindBowl, Note: "bowl it came from"}
	name    = Field{Name: "name", Type: Text, Max: maxName}
	note    = Field{Name: "note", Type: Text, Max: maxNote}
	spot    = Field{Name: "spot", Type: Word, Words: record.Spots[:]}
	items   = Field{Name: "items", Type: Amounts, Max: maxItems, Note: "g"}
	how     = Field{Name: "how", Type: Word, Words: words(record.ByScale, record.ByVessel, record.Unweighed, record.AsAdvised)}
	vessel  = Field{Name: "vessel", Type: Ref, Of: KindVessel, Note: "vessel it was measured with"}
)

// Kinds lists every kind, sorted by name.
var Kinds = sortedKinds([]Kind{
	{KindHousehold, true, []Field{
		name,
		{Name: "zone", Type: Text, Max: 64, Note: "IANA time zone"},
		{Name: "mass", Type: Word, Words: words(record.MassGrams, record.MassOunces)},
		{Name: "temp", Type: Word, Words: words(record.TempCelsius, record.TempFahrenheit)},
		{Name: "handful", Type: Natural, Note: "g of dry bedding"},
		{Name: "handfulOf", Type: Text, Max: maxID, Note: "catalogue id of that bedding"},
		{Name: "bucket", Type: Natural, Note: "ml, what castings are counted in"},
	}},
	{KindMember, true, []Field{
		name,
		{Name: "child", Type: Truth},
	}},
	{KindBin, true, []Field{
		name,
		{Name: "species", Type: Word, Words: words(record.Eisenia, record.Dendrobaena, record.Eudrilus, record.Perionyx, record.NotSure)},
		{Name: "goal", Type: Word, Words: words(record.Grow, record.Hold, record.SlowDown)},
		{Name: "feedEvery", Type: Natural, Note: "days between meals"},
		{Name: "coolest", Type: Integer, Note: "0.1 °C, room's mean of its coldest month"},
		{Name: "warmest", Type: Integer, Note: "0.1 °C, room's mean of its warmest month"},
		{Name: "started", Type: Date},
		{Name: "placing", Type: Word, Words: words(record.Pocket, record.Layer)},
		{Name: "hotUntil", Type: Date, Note: "last day of a hot week"},
	}},
	{KindTray, true, []Field{
		binRef, name,
		{Name: "width", Type: Natural, Note: "mm inside"},
		{Name: "depth", Type: Natural, Note: "mm inside"},
		{Name: "height", Type: Natural, Note: "mm inside"},
		{Name: "empty", Type: Natural, Note: "g, the tray's own weight"},
	}},
	{KindLabel, true, []Field{
		{Name: "code", Type: Text, Max: 32, Note: "canonical form, with its check symbol"},
		trayRef,
		{Name: "over", Type: Refs, Max: maxOver, Of: KindLabel, Note: "claims that the writer saw and replaces"},
	}},
	{KindStack, true, []Field{
		binRef,
		{Name: "trays", Type: Refs, Max: maxTrays, Of: KindTray, Note: "from the bottom up"},
		{Name: "over", Type: Refs, Max: maxOver, Of: KindStack, Note: "orderings that the writer saw and replaces"},
	}},
	{KindBatch, true, []Field{
		trayRef,
		{Name: "bedding", Type: Amounts, Max: maxItems, Note: "g, dry"},
		{Name: "bedded", Type: Date},
		{Name: "feeding", Type: Date},
		{Name: "resting", Type: Date},
		{Name: "ready", Type: Date},
		{Name: "emptied", Type: Date},
	}},
	{KindWorms, true, []Field{
		binRef, trayRef,
		{Name: "move", Type: Word, Words: words(record.WormsAdded, record.WormsRemoved, record.WormsWeighed, record.WormsLost)},
		{Name: "mass", Type: Natural, Note: "g"},
		{Name: "share", Type: Natural, Note: "per cent of the colony, for losses"},
		{Name: "wide", Type: Truth, Note: "with bedding or by eye"},
	}},
	{KindFeeding, false, append([]Field{
		binRef, trayRef, spot, items, how, vessel, bowlRef, note,
		{Name: "knew", Type: Refs, Max: maxKnew, Of: KindFeeding, Note: "feedings of this bin, this day and the day before, that the phone showed"},
		{Name: "about", Type: Truth, Note: "the day is only about right"},
	}, whoFields...)},
	{KindLook, false, append([]Field{
		binRef, trayRef, spot,
		{Name: "leftovers", Type: Word, Words: words(record.LeftNone, record.LeftHard, record.LeftSome, record.LeftHalf, record.LeftMost)},
		{Name: "squeeze", Type: Word, Words: []string{"crumbles", "holds", "one-drop", "few-drops", "runs"}},
		{Name: "temp", Type: Integer, Note: "0.1 °C"},
		{Name: "tempOf", Type: Word, Words: []string{"bed", "room"}},
		{Name: "smell", Type: Word, Words: []string{"earthy", "none", "sour", "ammonia", "rot"}},
		{Name: "visitors", Type: Marks, Max: maxMarks, Words: record.Visitors},
		{Name: "cover", Type: Word, Words: []string{"on", "dry", "missing"}},
		{Name: "covered", Type: Truth, Note: "covered as told; alone it is no look"},
		{Name: "liquid", Type: Natural, Note: "ml drained"},
		{Name: "fill", Type: Natural, Note: "mm, height of the material"},
		{Name: "weight", Type: Natural, Note: "g, tray and all"},
		{Name: "meter", Type: Natural, Note: "0.1 % moisture by a meter"},
		{Name: "ph", Type: Natural, Note: "0.1 pH"},
		{Name: "signs", Type: Marks, Max: maxMarks, Note: "signs of trouble that somebody chose"},
		{Name: "unlogged", Type: Word, Words: []string{"yes", "no"}, Note: "did someone feed without logging?"},
		note,
	}, whoFields...)},
	{KindSample, false, append([]Field{
		binRef, trayRef,
		{Name: "scoops", Type: Natural},
		{Name: "ml", Type: Natural, Note: "of one scoop"},
		{Name: "adults", Type: Natural, Note: "in all scoops together"},
		{Name: "young", Type: Natural, Note: "the same"},
		{Name: "cocoons", Type: Natural, Note: "the same"},
	}, whoFields...)},
	{KindHarvest, false, append([]Field{
		binRef, trayRef,
		{Name: "batch", Type: Ref, Of: KindBatch},
		{Name: "method", Type: Word, Words: words(record.ByClimbing, record.ByLight, record.BySide, record.ByDigging)},
		{Name: "grams", Type: Natural, Note: "g of castings, 0 if not weighed"},
		{Name: "ml", Type: Natural, Note: "castings by volume"},
		{Name: "buckets", Type: Natural, Note: "castings in tenths of the household's bucket"},
		{Name: "worms", Type: Natural, Note: "g put back"},
		note,
	}, whoFields...)},
	{KindPhoto, false, append([]Field{
		{Name: "of", Type: Text, Max: maxID, Note: "entity it belongs to"},
		{Name: "hash", Type: Text, Max: hashLong, Note: "SHA-256 of the picture, hexadecimal"},
		{Name: "type", Type: Text, Max: maxMark, Note: "media type"},
		{Name: "width", Type: Natural, Note: "pixels"},
		{Name: "height", Type: Natural, Note: "pixels"},
		{Name: "bytes", Type: Natural},
	}, whoFields...)},
	{KindRule, true, []Field{
		{Name: "scrap", Type: Text, Max: maxID, Note: "catalogue id"},
		{Name: "verdict", Type: Word, Words: words(record.RuleLittle, record.RuleAvoid, record.RuleNever)},
		note,
	}},
	{KindBowl, false, append([]Field{name, items, how, vessel}, whoFields...)},
	{KindFreezing, false, []Field{
		bowlRef,
		{Name: "items", Type: Moves, Max: maxItems, Note: "g; negative when taken out"},
	}},
	{KindDiscard, false, []Field{bowlRef, items}},
	{KindVessel, false, []Field{
		name,
		{Name: "grams", Type: Natural, Note: "g of scraps when full"},
	}},
})

func words[T ~string](list ...T) []string {
	out := make([]string, len(list))
	for i, w := range list {
		out[i] = string(w)
	}
	return out
}

func sortedKinds(list []Kind) []Kind {
	order.By(list, func(a, b Kind) int { return strings.Compare(a.Name, b.Name) })
	return list
}

// KindNamed returns the kind of that name.
func KindNamed(name string) (Kind, bool) {
	i, ok := slices.BinarySearchFunc(Kinds, name, func(k Kind, n string) int { return strings.Compare(k.Name, n) })
	if !ok {
		return Kind{}, false
	}
	return Kinds[i], true
}

// Field returns the field of that name.
func (k Kind) Field(name string) (Field, bool) {
	for _, f := range k.Fields {
		if f.Name == name {
			return f, true
		}
	}
	return Field{}, false
}

// KeeperOnly reports whether only a keeper's phone may push operations on
// entities of this kind. Kinds that this version does not know are open to
// every writing member, so that a newer phone's entries are not turned away.
func KeeperOnly(kind string) bool {
	k, _ := KindNamed(kind)
	return k.Keeper
}

// Schema tells the fold which kinds and fields this version knows.
func Schema() replica.Schema { return schema{} }

type schema struct{}

// Known is part of replica.Schema.
func (schema) Known(kind string) bool {
	_, ok := KindNamed(kind)
	return ok
}

// Check is part of replica.Schema.
func (schema) Check(kind, field string, value json.RawMessage) error {
	k, _ := KindNamed(kind)
	f, ok := k.Field(field)
	if !ok {
		return replica.ErrUnknown
	}
	if why := f.Why(value); why != "" {
		return errors.New(why)
	}
	return nil
}

// Why says what is wrong with a value, or "" if it has the field's shape.
func (f Field) Why(value json.RawMessage) string {
	switch f.Type {
	case Text:
		if s, ok := text(value); !ok {
			return "is not text"
		} else if len(s) > f.Max {
			return "is too long"
		}
	case Word:
		if s, ok := text(value); !ok || s != "" && !slices.Contains(f.Words, s) {
			return "is none of: " + strings.Join(f.Words, ", ")
		}
	case Natural:
		if n, ok := integer(value); !ok || n < 0 || n > limitInt {
			return "is not a whole number from 0 up"
		}
	case Integer:
		if n, ok := integer(value); !ok || n < -limitInt || n > limitInt {
			return "is not a whole number"
		}
	case Truth:
		if _, ok := truth(value); !ok {
			return "is neither true nor false"
		}
	case Date:
		if _, ok := date(value); !ok {
			return "is not a day like 2026-11-25"
		}
	case Ref:
		if s, ok := text(value); !ok || s != "" && !names(s, f.Of) {
			return "does not name a " + f.Of
		}
	case Refs:
		list, ok := texts(value)
		if !ok || len(list) > f.Max {
			return "is not a short list of names"
		}
		for _, s := range list {
			if !names(s, f.Of) {
				return "does not name a " + f.Of + " in every place"
			}
		}
	case Marks:
		list, ok := texts(value)
		if !ok || len(list) > f.Max {
			return "is not a short list of words"
		}
		for _, s := range list {
			if len(f.Words) > 0 && !slices.Contains(f.Words, s) {
				return "holds a word that is none of: " + strings.Join(f.Words, ", ")
			}
			if s == "" || len(s) > maxMark {
				return "holds a word that is empty or too long"
			}
		}
	case Amounts, Moves:
		list, ok := amounts(value, nil)
		if !ok || len(list) > f.Max {
			return "is not a short list of amounts"
		}
		for _, it := range list {
			if it.Grams > limitInt || it.Grams < -limitInt || it.Grams < 0 && f.Type == Amounts {
				return "holds an amount out of range"
			}
			if len(it.Scrap) > maxID || len(it.Class) > maxID || len(it.Name) > maxName {
				return "holds a name that is too long"
			}
		}
	}
	return ""
}

func names(s, kind string) bool {
	return len(s) <= maxID && len(s) > len(kind)+1 && s[:len(kind)] == kind && s[len(kind)] == '/'
}
