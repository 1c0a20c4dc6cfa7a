package record

// RuleVerdict is how a household's own rule judges a scrap.
type RuleVerdict string

// The verdicts, each stricter than the one before.
const (
	RuleLittle RuleVerdict = "little"
	RuleAvoid  RuleVerdict = "avoid"
	RuleNever  RuleVerdict = "never"
)

// HouseRule is a household's own verdict on one scrap. It can only be stricter
// than the catalogue's; where it is not, it says nothing.
type HouseRule struct {
	ID      string
	Scrap   string // catalogue id
	Verdict RuleVerdict
	Note    string // why
	Logger  string // member whose phone made it
	At      string
	Day     Day
	Edited  bool
}
