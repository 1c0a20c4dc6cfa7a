package record

import "trayside/internal/units"

// Sample is worms counted in a few scoops of a tray's bed. The counts are sums
// over the scoops.
type Sample struct {
	ID      string
	Bin     string
	Tray    string
	Scoops  int
	ML      int64 // of one scoop
	Adults  int
	Young   int
	Cocoons int
	Who     Who
	Logger  string // member whose phone logged it
	At      string
	Day     Day
}

// HarvestMethod is how castings and worms were parted.
type HarvestMethod string

// The methods.
const (
	ByClimbing HarvestMethod = "climb" // worms climbed into the tray above
	ByLight    HarvestMethod = "light" // heaps in the light, worms go down
	BySide     HarvestMethod = "side"  // fed on one side, dug on the other
	ByDigging  HarvestMethod = "dig"   // taken as it was
)

// Harvest is castings taken out of a tray. Amounts are 0 where nobody measured.
type Harvest struct {
	ID      string
	Bin     string
	Tray    string
	Batch   string
	Method  HarvestMethod
	Mass    units.Grams // castings, weighed
	ML      int64       // castings, by volume
	Buckets int64       // castings, tenths of the household's bucket
	Worms   units.Grams // put back into the bin
	Note    string
	Who     Who
	Logger  string // member whose phone logged it
	At      string
	Day     Day
}
