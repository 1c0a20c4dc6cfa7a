// Package record is the typed record of one household: what its log says, in
// the words of the trade, after the fold. It holds data and the few questions
// that data alone can answer; nothing here knows the log or judges anything.
//
// Slices are sorted by (Day, At, ID) unless said otherwise, so that everything
// computed from a record is the same on every device.
package record

import (
	"strings"

	"trayside/internal/units"
)

// Household is everything one household has written down.
type Household struct {
	ID       string
	Name     string
	Zone     string // IANA zone, used to tell the household's day
	Mass     MassUnit
	Temp     TempUnit
	Measures Measures
	Members  []Member
	Bins     []Bin
	Trays    []Tray
	Batches  []Batch
	Worms    []WormEvent
	Feedings []Feeding
	Looks    []Look
	Samples  []Sample
	Harvests []Harvest
	Bowls    []Bowl
	Freezer  []Freezing
	Discards []Discard
	Photos   []Photo
	Vessels  []Vessel
	Rules    []HouseRule // in the order in which they were written
	Claims   []LabelClaim
	Undone   Undone     // entries taken back: shown struck, counted nowhere
	Unread   int        // entries of kinds or fields that this version does not know
	Aside    []Aside    // fields that are not valid for their kind
	Asks     []Question // two entries claim what only one can have
}

// MassUnit is how the household reads weights.
type MassUnit string

// The mass units.
const (
	MassGrams  MassUnit = "g"
	MassOunces MassUnit = "oz"
)

// TempUnit is how the household reads temperatures.
type TempUnit string

// The temperature units.
const (
	TempCelsius    TempUnit = "C"
	TempFahrenheit TempUnit = "F"
)

// Measures are the household's own measures, each weighed or filled once; 0 if
// nobody has.
type Measures struct {
	Handful   units.Grams // of dry bedding
	HandfulOf string      // catalogue id of that bedding
	Bucket    int64       // ml, what castings are counted in
}

// Member is a person of the household, with or without a phone. What a member's
// phone may do stands in the roster, not here.
type Member struct {
	ID    string
	Name  string
	Child bool
	Gone  bool
}

// Who says who did a thing: a member, or a guest by name (Member is then "").
type Who struct {
	Member string
	Guest  string
}

// Species is a kind of composting worm.
type Species string

// The species that have numbers. NotSure uses Eisenia with wider bands.
const (
	Eisenia     Species = "eisenia-fetida" // stands for E. andrei too
	Dendrobaena Species = "dendrobaena-hortensis"
	Eudrilus    Species = "eudrilus-eugeniae"
	Perionyx    Species = "perionyx-excavatus"
	NotSure     Species = "not-sure"
)

// Jumping reports whether a name means jumping worms, which have no numbers: either
// genus, with a species behind it or not, in whatever letters.
func Jumping(s Species) bool {
	name := strings.ToLower(strings.TrimSpace(string(s)))
	return strings.HasPrefix(name, "jumping") || strings.HasPrefix(name, "amynthas") || strings.HasPrefix(name, "metaphire")
}

// Goal is what the household wants of its colony.
type Goal string

// The goals.
const (
	Grow     Goal = "grow"
	Hold     Goal = "hold"
	SlowDown Goal = "slow-down"
)

// Placing is how a bin is fed.
type Placing string

// The ways of placing. A pocket is dug into one spot; a layer covers the tray.
const (
	Pocket Placing = "pocket"
	Layer  Placing = "layer"
)

// Bin is one stack on one footprint.
type Bin struct {
	ID        string
	Name      string
	Species   Species
	Goal      Goal
	FeedEvery int // days between meals the household aims at, 1 to 14
	// RoomCoolest and RoomWarmest are the room's means in the coldest and the
	// warmest month; between readings the bed follows that season.
	RoomCoolest units.DeciCelsius
	RoomWarmest units.DeciCelsius
	Started     Day
	Placing     Placing
	HotUntil    *Day     // a hot week is on up to and with this day
	Stack       []string // tray ids from the bottom up, derived from the newest ordering
	Gone        bool
}

// Tray is one labelled tier.
type Tray struct {
	ID     string
	Bin    string
	Name   string
	Width  units.Millimetres
	Depth  units.Millimetres
	Height units.Millimetres
	Empty  units.Grams // the tray's own weight, 0 if it was not weighed
	Code   string      // its label's code with check symbol, derived from the newest claim; "" if none
	Gone   bool
}

// AreaCM2 returns the tray's inner surface in square centimetres.
func (t Tray) AreaCM2() int64 { return int64(t.Width) * int64(t.Depth) / 100 }

// Stage is where a batch stands in its life.
type Stage string

// The stages, in order.
const (
	Bedded  Stage = "bedded"
	InUse   Stage = "feeding"
	Resting Stage = "resting"
	Ready   Stage = "ready"
	Emptied Stage = "emptied"
)

// Batch is a tray's life from bedding to emptying. Days are nil until reached.
type Batch struct {
	ID      string
	Tray    string
	Bedding []Item // dry bedding by catalogue id
	Bedded  Day
	Feeding *Day
	Resting *Day
	Ready   *Day
	Emptied *Day
}

// StageOn returns the batch's stage on day d.
func (b Batch) StageOn(d Day) Stage {
	stage := Bedded
	for _, step := range []struct {
		day   *Day
		stage Stage
	}{{b.Feeding, InUse}, {b.Resting, Resting}, {b.Ready, Ready}, {b.Emptied, Emptied}} {
		if step.day != nil && *step.day <= d {
			stage = step.stage
		}
	}
	return stage
}

// WormMove is how worms came or went.
type WormMove string

// The moves. Lost carries Share instead of Mass.
const (
	WormsAdded   WormMove = "added"
	WormsRemoved WormMove = "removed"
	WormsWeighed WormMove = "weighed"
	WormsLost    WormMove = "lost"
)

// WormEvent records worms put in, taken out, weighed or lost.
type WormEvent struct {
	ID    string
	Bin   string
	Tray  string
	Move  WormMove
	Mass  units.Grams
	Share int  // per cent of the colony, only for WormsLost
	Wide  bool // weighed with bedding or by eye: wide error
	At    string
	Day   Day
}

// How says how an amount was found, which is also how far it can be trusted.
type How string

// The ways.
const (
	ByScale   How = "scale"
	ByVessel  How = "vessel"     // one of the household's own vessels
	Unweighed How = "unweighed"  // "some, not weighed"
	AsAdvised How = "as-advised" // one tap: fed what the ration said
)

// Item is one kind of scrap (or bedding) in an amount.
type Item struct {
	Scrap  string      `json:"scrap"`           // catalogue id, or "other"
	Class  string      `json:"class,omitempty"` // food class, for "other"
	Name   string      `json:"name,omitempty"`  // what people called it, for "other"
	Grams  units.Grams `json:"g"`
	Cut    bool        `json:"cut,omitempty"`    // chopped
	Frozen bool        `json:"frozen,omitempty"` // frozen and thawed
}

// Total returns the mass of items.
func Total(items []Item) units.Grams {
	var sum units.Grams
	for _, it := range items {
		sum += it.Grams
	}
	return sum
}

// Feeding is scraps put into one tray.
type Feeding struct {
	ID     string
	Bin    string
	Tray   string
	Spot   string // "" or one of the nine spots, see Spots
	Items  []Item
	How    How
	Who    Who    // who fed
	Logger string // member whose phone logged it
	Device string // phone that logged it
	Bowl   string // bowl it came from, "" if none
	Vessel string // vessel it was measured with, "" if none
	// Knew names the feedings of the same bin, of this day and the day before,
	// that the phone showed when this one was written. Two feedings from two
	// devices that do not know of each other happened out of sight.
	Knew   []string
	Stamp  int64  // stamp of the writing, ms
	Edited bool   // something was changed after the writing
	At     string // instant with offset, RFC 3339
	Day    Day
	About  bool // the day is only about right: written down later, or from a paper card
	Note   string
}

// Spots are the places in a tray seen from above, back row first; "front" is
// where the person stands.
var Spots = [9]string{
	"back-left", "back-middle", "back-right",
	"left", "middle", "right",
	"front-left", "front-middle", "front-right",
}

// Bowl is scraps weighed and waiting for a bin. What is left in it is derived:
// its items less the feedings, freezings and discards that name it.
type Bowl struct {
	ID    string
	Name  string
	Items []Item
	How   How
	Who   Who
	// Logger is the member whose phone logged it.
	Logger string
	At     string
	Day    Day
}

// Freezing is scraps put into the freezer, or taken out when Grams are negative.
type Freezing struct {
	ID    string
	Bowl  string
	Items []Item
	At    string
	Day   Day
}

// Discard is scraps of a bowl that went out with the household waste.
type Discard struct {
	ID    string
	Bowl  string
	Items []Item
	At    string
	Day   Day
}

// Vessel is one of the household's own vessels, weighed once full of scraps.
type Vessel struct {
	ID    string
	Name  string
	Grams units.Grams
}

// LabelClaim says that a label was put on a tray; the newest claim of a code holds.
type LabelClaim struct {
	Code string
	Tray string
	Day  Day
}

// Undone holds the entries that somebody took back.
type Undone struct {
	Feedings []Feeding
	Looks    []Look
	Bowls    []Bowl
	Worms    []WormEvent
	Samples  []Sample
	Harvests []Harvest
	Freezer  []Freezing
	Discards []Discard
	Rules    []HouseRule
	Photos   []Photo // never shown again: their hashes say what to delete
}

// Aside is one field that is not valid for its kind and was left out of the record.
type Aside struct {
	Entity string
	Field  string
	Why    string
}

// Question is a claim that lost by rule and that a keeper may want to settle.
type Question struct {
	Kind  string // "open-batch", "label", "stack-order"
	Ents  []string
	Holds string // the entity that holds by rule
}
