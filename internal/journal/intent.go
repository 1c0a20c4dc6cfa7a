package journal

import "trayside/internal/record"

// The things a person can do. Each becomes one or more operations in one go.
const (
	DoFeed      = "feed"      // scraps into a tray
	DoBowl      = "bowl"      // scraps weighed, waiting
	DoPlace     = "place"     // a bowl into trays, the freezer, the waste
	DoLook      = "look"      // a quick check
	DoUndo      = "undo"      // take an entry back
	DoRedo      = "redo"      // bring it back
	DoEdit      = "edit"      // change fields of an entry
	DoHousehold = "household" // name, zone, units
	DoMember    = "member"
	DoBin       = "bin"
	DoTray      = "tray"
	DoClaim     = "claim" // a label on a tray
	DoStack     = "stack" // order of a bin's trays
	DoBatch     = "batch" // bed a tray
	DoStage     = "stage" // a batch reaches a stage
	DoWorms     = "worms"
	DoVessel    = "vessel"
	DoFreeze    = "freeze"  // scraps into the freezer; negative amounts come out
	DoDiscard   = "discard" // scraps out with the household waste
	DoSample    = "sample"  // worms counted in a few scoops
	DoHarvest   = "harvest" // castings taken out
	DoPhoto     = "photo"   // a picture of an entry
	DoRule      = "rule"    // the household's own verdict on a scrap
)

// Intent is what a screen asks to be written down. Only the fields that belong
// to Do are read; the rest stay zero.
type Intent struct {
	Do     string `json:"do"`
	Entity string `json:"entity,omitempty"` // entry to undo, redo or edit; or the entity to change
	At     string `json:"at,omitempty"`     // instant with offset, RFC 3339; now if empty
	Day    string `json:"day,omitempty"`    // household's day; today if empty

	Bin    string        `json:"bin,omitempty"`
	Tray   string        `json:"tray,omitempty"`
	Spot   string        `json:"spot,omitempty"`
	Items  []record.Item `json:"items,omitempty"`
	How    record.How    `json:"how,omitempty"`
	Vessel string        `json:"vessel,omitempty"`
	Member string        `json:"member,omitempty"` // who did it
	Guest  string        `json:"guest,omitempty"`  // or a guest's name
	Bowl   string        `json:"bowl,omitempty"`
	Shares []Share       `json:"shares,omitempty"` // place
	Note   string        `json:"note,omitempty"`
	Sure   bool          `json:"sure,omitempty"`  // the person confirmed a likely slip
	InBin  bool          `json:"inBin,omitempty"` // "it is already in the bin": never refused

	Leftovers record.Leftovers `json:"leftovers,omitempty"`
	Squeeze   string           `json:"squeeze,omitempty"`
	Temp      *int64           `json:"temp,omitempty"` // 0.1 °C
	TempOf    string           `json:"tempOf,omitempty"`
	Smell     string           `json:"smell,omitempty"`
	Visitors  []string         `json:"visitors,omitempty"`
	Cover     string           `json:"cover,omitempty"`
	Covered   bool             `json:"covered,omitempty"`
	Liquid    *int64           `json:"liquid,omitempty"` // ml drained, 0 is an answer too
	Fill      *int64           `json:"fill,omitempty"`   // mm
	Weight    *int64           `json:"weight,omitempty"` // g, tray and all
	Meter     *int64           `json:"meter,omitempty"`  // 0.1 %
	PH        *int64           `json:"ph,omitempty"`     // 0.1
	Signs     []string         `json:"signs,omitempty"`
	Unlogged  string           `json:"unlogged,omitempty"` // yes or no

	About bool `json:"about,omitempty"` // feed: the day is only about right

	Scoops  int64 `json:"scoops,omitempty"` // sample
	ML      int64 `json:"ml,omitempty"`     // sample: of one scoop; harvest: castings
	Adults  int64 `json:"adults,omitempty"`
	Young   int64 `json:"young,omitempty"`
	Cocoons int64 `json:"cocoons,omitempty"`

	Batch   string               `json:"batch,omitempty"` // harvest; the tray's open one if empty
	Method  record.HarvestMethod `json:"method,omitempty"`
	Grams   int64                `json:"grams,omitempty"`   // castings
	Buckets int64                `json:"buckets,omitempty"` // tenths
	Worms   int64                `json:"worms,omitempty"`   // g put back

	Of     string `json:"of,omitempty"`   // photo: entity it belongs to
	Hash   string `json:"hash,omitempty"` // SHA-256, 64 hexadecimal digits
	Type   string `json:"type,omitempty"` // media type
	Width  int64  `json:"width,omitempty"`
	Height int64  `json:"height,omitempty"`
	Bytes  int64  `json:"bytes,omitempty"`

	Scrap   string             `json:"scrap,omitempty"` // rule
	Verdict record.RuleVerdict `json:"verdict,omitempty"`

	Set map[string]any `json:"set,omitempty"` // fields of kinds.go, for edit and for the keeper's entities
}

// Where a share of a bowl can go.
const (
	ToTray    = "tray"
	ToFreezer = "freezer"
	ToWaste   = "waste"
)

// Share is one part of a bowl on its way.
type Share struct {
	To    string `json:"to"` // one of the above
	Tray  string `json:"tray,omitempty"`
	Spot  string `json:"spot,omitempty"`
	Grams int64  `json:"grams"`
}
