// Package advice is the one door to the domain: a record and a day in,
// everything a screen, label, calendar or script shows out.
//
// The views below cross the border to the phone app as JSON; cmd/dev writes
// their TypeScript twins. They hold codes and numbers, never sentences: the
// words stand in pwa/src/strings.
package advice

// TodayView is the first screen: all bins by urgency and what waits.
type TodayView struct {
	Day     string    `json:"day"`
	Home    string    `json:"home"` // household's name
	Mass    string    `json:"mass"` // "g" or "oz"
	Temp    string    `json:"temp"` // "C" or "F"
	Bins    []BinView `json:"bins"`
	Bowls   []Bowl    `json:"bowls"`
	Freezer int64     `json:"freezer"` // g
	Thaw    *ThawView `json:"thaw,omitempty"`
	Jobs    []Job     `json:"jobs"`
	Asides  int       `json:"asides"`  // entries that need attention
	Unread  int       `json:"unread"`  // entries that need a newer app
	Members []Person  `json:"members"` // who can be said to have fed
	Told    []Told    `json:"told"`    // children's meals that were more than advised
}

// Person is a member as the screens name one.
type Person struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Child bool   `json:"child,omitempty"`
}

// BinView is one bin on Today.
type BinView struct {
	ID     string      `json:"id"`
	Name   string      `json:"name"`
	Tray   string      `json:"tray"`  // id of the tray that takes food today
	Stack  []TierView  `json:"stack"` // from the top down
	Ration RationView  `json:"ration"`
	Double *DoubleView `json:"double,omitempty"`
	Base   *BaseView   `json:"base,omitempty"`
}

// TierView is one tray of a stack, for its drawing and its list.
type TierView struct {
	ID         string    `json:"id"`
	Name       string    `json:"name"`
	Code       string    `json:"code"`
	Stage      string    `json:"stage"`
	StageDay   int       `json:"stageDay"` // days in this stage, first day is 1
	WidthMM    int64     `json:"widthMM"`
	HeightMM   int64     `json:"heightMM"`
	BeddingMM  int64     `json:"beddingMM"`
	CastingsMM int64     `json:"castingsMM"`
	CastingsG  int64     `json:"castingsG"`
	Scraps     []Portion `json:"scraps"`
	Worms      Span      `json:"worms"` // g
	Takes      bool      `json:"takes"` // takes food today
	Bed        *BedView  `json:"bed,omitempty"`
	Cocoons    *Counted  `json:"cocoons,omitempty"`
}

// Portion is what is left of one feeding.
type Portion struct {
	Feeding string `json:"feeding"`
	Day     string `json:"day"`
	Spot    string `json:"spot,omitempty"`
	Fed     int64  `json:"fed"`  // g
	Left    int64  `json:"left"` // g, soft part
}

// Span is a quantity with its likely range (8 times of 10).
type Span struct {
	Mid  int64 `json:"mid"`
	Low  int64 `json:"low"`
	High int64 `json:"high"`
}

// SureWeighed says that the worms behind a ration were weighed lately; how sure
// it is otherwise, package ration says.
const SureWeighed = "weighed"

// RationView is what may go in today, and why.
type RationView struct {
	Grams    int64    `json:"grams"`  // rounded for people
	Likely   Span     `json:"likely"` // g
	Answer   string   `json:"answer"` // see the answers of package ration
	Sure     string   `json:"sure"`   // SureWeighed, or as package ration says
	Reasons  []Reason `json:"reasons"`
	Binds    string   `json:"binds"`          // as package ration says: worms, surface, warmth, kitchen and others
	Move     string   `json:"move,omitempty"` // cheapest next move, a code
	Rule     RuleView `json:"rule"`           // rule of thumb beside it
	Promise  *Promise `json:"promise,omitempty"`
	Hold     *Hold    `json:"hold,omitempty"`
	Vessel   string   `json:"vessel,omitempty"`  // household's vessel nearest to it
	Vessels  int64    `json:"vessels,omitempty"` // how many of it, in quarters
	Feeds    int64    `json:"feeds"`             // g already fed to this bin today
	NextDay  string   `json:"nextDay"`           // day of the next meal this ration reaches to
	BedTemp  int64    `json:"bedTemp"`           // 0.1 °C used
	BedSeen  bool     `json:"bedSeen"`           // a reading, not the season
	BeddingG int64    `json:"beddingG"`          // dry bedding to go with it
	Spot     string   `json:"spot,omitempty"`    // where it was fed longest ago
	Knows    Knows    `json:"knows"`
	Moved    []Moved  `json:"moved"` // by the observations of the last weeks, oldest first
}

// Knows tells which quantities this bin's log, and no longer the guides, sets.
type Knows struct {
	Appetite bool `json:"appetite"`
	Surface  bool `json:"surface"`
	Breeding bool `json:"breeding"`
}

// Moved is what one observation changed, in thousandths of its unit.
type Moved struct {
	Code   string `json:"code"` // "worms" (g), "appetite" (g per g and day), "surface" (g per m² and day)
	Entry  string `json:"entry"`
	Day    string `json:"day"`
	Before int64  `json:"before"`
	After  int64  `json:"after"`
}

// Reason is one row of the ledger under a ration. Rows are read in order: a row
// with an operator applies to the running value, a row marked Sum states it, and
// one with the operator "compare" (the rule of thumb, from From to To) changes
// nothing. The last row is the result. Values are thousandths of Unit, so that the ledger
// sums exactly, rounding included.
type Reason struct {
	Code  string `json:"code"`         // what the row is; words in pwa/src/strings
	Op    string `json:"op,omitempty"` // "", "×", "−", "+", "≤" (cap), "≈" (add the difference that rounding makes), "compare" (passed by)
	Milli int64  `json:"milli"`        // value in thousandths of Unit
	Unit  string `json:"unit"`         // "g", "per day", "d", "°C"
	Sum   bool   `json:"sum,omitempty"`
	Day   string `json:"day,omitempty"`  // a day the words may name
	From  int64  `json:"from,omitempty"` // lower end the words may name, g
	To    int64  `json:"to,omitempty"`   // upper end the words may name, g
}

// RuleView is the rule of thumb for the same worms and days, in g.
type RuleView struct {
	Low  int64 `json:"low"`
	High int64 `json:"high"`
}

// Promise says when the meal should be gone, and can be wrong.
type Promise struct {
	Day    string `json:"day"`
	Chance int    `json:"chance"` // %, that it is gone by that day
	First  string `json:"first"`  // span over 8 of 10
	Last   string `json:"last"`
	Kept   int    `json:"kept"` // of past promises
	Of     int    `json:"of"`
}

// Hold stops feeding here: a cause, a release and an end.
type Hold struct {
	Cause string `json:"cause"`           // code
	Until string `json:"until"`           // release, a code
	End   string `json:"end"`             // day by which it ends or changes
	Entry string `json:"entry,omitempty"` // entity that shows it
}

// DoubleView tells of two feedings of one bin that did not know of each other.
type DoubleView struct {
	Bin      string     `json:"bin"`
	Feedings []FeedLine `json:"feedings"`
	Grams    int64      `json:"grams"`
}

// FeedLine is one feeding in a list.
type FeedLine struct {
	ID     string     `json:"id"`
	Bin    string     `json:"bin"`
	Tray   string     `json:"tray"`
	Day    string     `json:"day"`
	At     string     `json:"at"`
	Grams  int64      `json:"grams"`
	How    string     `json:"how"`
	Spot   string     `json:"spot,omitempty"`
	Items  []ItemView `json:"items"`
	Who    string     `json:"who"` // name of who fed
	Guest  bool       `json:"guest,omitempty"`
	Logger string     `json:"logger,omitempty"` // name of whose phone logged it, if another's
	Mine   bool       `json:"mine,omitempty"`   // logged on this phone
}

// ItemView is one scrap in a list.
type ItemView struct {
	Scrap  string `json:"scrap"`
	Name   string `json:"name"`
	Class  string `json:"class,omitempty"`
	Grams  int64  `json:"grams"`
	Cut    bool   `json:"cut,omitempty"`
	Frozen bool   `json:"frozen,omitempty"`
}

// Bowl is a bowl that waits, with the split the advice would make.
type Bowl struct {
	ID    string     `json:"id"`
	Name  string     `json:"name"`
	Grams int64      `json:"grams"` // left in it
	How   string     `json:"how"`
	Items []ItemView `json:"items"`
	Who   string     `json:"who"`
	At    string     `json:"at"`
	Split []Share    `json:"split"`
}

// Share is one part of a bowl's suggested split, from the top down.
type Share struct {
	To    string `json:"to"` // "tray", "freezer" or "waste"
	Bin   string `json:"bin,omitempty"`
	Tray  string `json:"tray,omitempty"`
	Name  string `json:"name,omitempty"`
	Grams int64  `json:"grams"`
}

// Job is something due.
type Job struct {
	Kind string `json:"kind"` // "look", "bed-next", "rest", …
	Bin  string `json:"bin"`
	Tray string `json:"tray,omitempty"`
	Name string `json:"name"`
	Days int    `json:"days,omitempty"`
	Day  string `json:"day,omitempty"`
	// What one tap can do about it: the batch to rest, or the tray to bed next
	// with the bedding that the one below got. Missing where it takes more.
	Batch    string     `json:"batch,omitempty"`
	Next     string     `json:"next,omitempty"`
	NextName string     `json:"nextName,omitempty"`
	Items    []ItemView `json:"items,omitempty"`
}

// TrayView is what a scan opens.
type TrayView struct {
	Found   string      `json:"found"` // "tray", "removed", "unclaimed" (well-formed, on no tray of ours), "malformed"
	Why     string      `json:"why,omitempty"`
	Code    string      `json:"code,omitempty"` // the label's; of a malformed one what was typed, at most 40 characters
	ID      string      `json:"id,omitempty"`
	Name    string      `json:"name,omitempty"`
	Bin     string      `json:"bin,omitempty"`
	BinName string      `json:"binName,omitempty"`
	Day     string      `json:"day"`
	Mass    string      `json:"mass"`
	Temp    string      `json:"temp"`
	Tier    *TierView   `json:"tier,omitempty"`
	Stack   []TierView  `json:"stack"`
	Base    *BaseView   `json:"base,omitempty"`
	Ration  *RationView `json:"ration,omitempty"`
	Bowls   []Bowl      `json:"bowls"`
	Feeds   []FeedLine  `json:"feeds"` // newest first, at most 8
	Spots   []SpotView  `json:"spots"` // the nine places
	Double  *DoubleView `json:"double,omitempty"`
	Other   []Share     `json:"other"` // where the rest of a bowl could go
	Members []Person    `json:"members"`
	Ask     *Ask        `json:"ask,omitempty"`
	Gap     int         `json:"gap,omitempty"` // days since the bin's last written meal, if they are suspiciously many
}

// SpotView is one of the nine places of a tray.
type SpotView struct {
	Spot string `json:"spot"`
	Day  string `json:"day,omitempty"` // fed last
	Left int64  `json:"left"`          // g
	Next bool   `json:"next,omitempty"`
}

// Ask is the one question of a visit; skipping it costs nothing.
type Ask struct {
	Kind string `json:"kind"` // "leftovers", "unlogged"
	Tray string `json:"tray"`
	Day  string `json:"day"` // of the meal it asks about
}

// WeighView is what the Weigh screen needs before the first key is pressed.
type WeighView struct {
	Mass    string       `json:"mass"`
	Usual   []ItemView   `json:"usual"`  // the household's usual mix for 100 g
	Often   []ScrapView  `json:"often"`  // what this household uses most
	Scraps  []ScrapView  `json:"scraps"` // the whole catalogue
	Vessels []VesselView `json:"vessels"`
	Classes []string     `json:"classes"` // for "other"
	Members []Person     `json:"members"`
	Rations []Share      `json:"rations"` // today's, by bin
	Bowls   []Bowl       `json:"bowls"`
	Limits  []SlipLimits `json:"limits"` // of each tray that takes food, and of a bowl for none (tray is "")
}

// ScrapView is one entry of the catalogue.
type ScrapView struct {
	ID      string   `json:"id"`
	Name    string   `json:"name"`
	Group   string   `json:"group"`
	Class   string   `json:"class"`
	Verdict string   `json:"verdict"` // good, little, avoid, never; the house rule's where there is one
	Reasons []string `json:"reasons"` // codes
	Prep    []string `json:"prep"`    // codes
	House   *House   `json:"house,omitempty"`
}

// VesselView is one of the household's vessels.
type VesselView struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Grams int64  `json:"grams"`
}

// TimelineView is everything by day, newest first.
type TimelineView struct {
	Day     string        `json:"day"`
	Mass    string        `json:"mass"`
	Temp    string        `json:"temp"`
	Days    []TimelineDay `json:"days"`
	Next    string        `json:"next,omitempty"` // pass as "before" to read on
	Members []Person      `json:"members"`        // who can be said to have fed
	Bins    []Place       `json:"bins"`           // what the timeline can be narrowed to
}

// Place names a bin or a tray.
type Place struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// TimelineDay is one day of the timeline.
type TimelineDay struct {
	Day     string   `json:"day"`
	Entries []Entry  `json:"entries"`
	Double  []string `json:"double,omitempty"` // bins fed twice out of sight
}

// Entry is one thing that happened.
type Entry struct {
	Entity  string      `json:"entity"`
	Kind    string      `json:"kind"`
	At      string      `json:"at"`
	Bin     string      `json:"bin,omitempty"`
	Tray    string      `json:"tray,omitempty"`
	Names   []string    `json:"names"` // bin and tray names
	Who     string      `json:"who,omitempty"`
	Member  string      `json:"member,omitempty"` // id of who did it
	Guest   bool        `json:"guest,omitempty"`
	Logger  string      `json:"logger,omitempty"`
	Feed    *FeedLine   `json:"feed,omitempty"`
	Look    *LookLine   `json:"look,omitempty"`
	Items   []ItemView  `json:"items,omitempty"` // of a bowl, the freezer, the waste
	Sample  *SampleLine `json:"sample,omitempty"`
	ML      int64       `json:"ml,omitempty"`      // castings of a harvest, by volume
	Buckets int64       `json:"buckets,omitempty"` // the same, in tenths of the household's bucket
	Spot    string      `json:"spot,omitempty"`
	Note    string      `json:"note,omitempty"`
	About   bool        `json:"about,omitempty"` // the day is only about right
	Grams   int64       `json:"grams,omitempty"`
	Share   int         `json:"share,omitempty"` // per cent of the colony that was lost
	Code    string      `json:"code,omitempty"`  // what happened to worms or a batch, how it was harvested
	Gone    bool        `json:"gone,omitempty"`  // undone: shown struck, can be brought back
	Edited  bool        `json:"edited,omitempty"`
}

// LookLine is what a look found; what was skipped is missing.
type LookLine struct {
	Leftovers string   `json:"leftovers,omitempty"`
	Squeeze   string   `json:"squeeze,omitempty"`
	Smell     string   `json:"smell,omitempty"`
	Temp      *int64   `json:"temp,omitempty"`   // 0.1 °C
	TempOf    string   `json:"tempOf,omitempty"` // "bed" or "room"
	Visitors  []string `json:"visitors,omitempty"`
	Cover     string   `json:"cover,omitempty"`    // "on", "dry", "missing"
	Covered   bool     `json:"covered,omitempty"`  // covered as told, under a hold
	Liquid    *int64   `json:"liquid,omitempty"`   // ml drained
	Fill      *int64   `json:"fill,omitempty"`     // mm of material
	Weight    *int64   `json:"weight,omitempty"`   // g of the whole tray
	Meter     *int64   `json:"meter,omitempty"`    // 0.1 % moisture, by a meter
	PH        *int64   `json:"ph,omitempty"`       // 0.1 pH
	Unlogged  string   `json:"unlogged,omitempty"` // "yes" or "no": did somebody feed without writing it down?
}

// SampleLine is worms counted in scoops of a bed.
type SampleLine struct {
	Scoops  int64 `json:"scoops"`
	ML      int64 `json:"ml"` // of one scoop
	Adults  int64 `json:"adults"`
	Young   int64 `json:"young"`
	Cocoons int64 `json:"cocoons"`
}

// SlipLimits say from which amounts on a slip is asked about, so that a key can
// ask without waiting for an answer.
type SlipLimits struct {
	Tray   string `json:"tray"`
	Ask    int64  `json:"ask"`    // g; more is asked about
	Refuse int64  `json:"refuse"` // g; more is refused
}

// SlipView answers "may this amount be a slip?" before anything is saved.
type SlipView struct {
	Kind  string `json:"kind"` // "", "ask" (likely a slip), "refuse"
	Why   string `json:"why,omitempty"`
	Grams int64  `json:"grams"`
	Limit int64  `json:"limit"`
}
