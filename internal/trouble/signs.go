package trouble

// Sign is something a person sees, smells or feels at the bin.
type Sign string

// The signs. Each row of the published trouble tables named in params.go is one
// of them; Packed, MuchLiquid and Thrashing are this project's additions.
const (
	SourSmell     Sign = "sour-smell"
	RotSmell      Sign = "rot-smell"
	AmmoniaSmell  Sign = "ammonia-smell"
	WormsLeaving  Sign = "worms-leaving" // on the lid, up the walls, outside
	WormsDying    Sign = "worms-dying"
	BeadedWorms   Sign = "beaded-worms" // swollen like beads on a string
	PaleMites     Sign = "pale-mites"   // many, white or tan, on the food
	RedMites      Sign = "red-mites"    // clustering on worms
	FruitFlies    Sign = "fruit-flies"
	SoldierLarvae Sign = "soldier-larvae" // broad grey-brown larvae of soldier flies
	Ants          Sign = "ants"
	Centipedes    Sign = "centipedes"
	Springtails   Sign = "springtails" // tiny white jumpers
	Potworms      Sign = "potworms"    // thin, white, a centimetre or two
	Mould         Sign = "mould"
	WetBed        Sign = "wet-bed" // puddles, mud, drops on the lid
	DryBed        Sign = "dry-bed"
	HotBed        Sign = "hot-bed"  // hot to the hand
	ColdBed       Sign = "cold-bed" // cold to the hand
	FoodUneaten   Sign = "food-uneaten"
	FewYoung      Sign = "few-young" // few cocoons, small worms
	WormsInSump   Sign = "worms-in-sump"
	MuchLiquid    Sign = "much-liquid" // more than drips drains off
	Maggots       Sign = "maggots"     // of house flies
	Rodents       Sign = "rodents"     // or raccoons: gnawed, dug out
	DarkCrumbly   Sign = "dark-crumbly"
	Packed        Sign = "packed"    // the bed is a dense mat
	Thrashing     Sign = "thrashing" // worms that thrash when touched, with a smooth pale collar
)

// Signs returns every sign, those that ask for haste first.
func Signs() []Sign {
	out := make([]Sign, len(signs))
	for i, s := range signs {
		out[i] = s.sign
	}
	return out
}

// indexOf returns a sign's place in the table, or -1.
func indexOf(s Sign) int {
	for i := range signs {
		if signs[i].sign == s {
			return i
		}
	}
	return -1
}

// Cause is something that may be wrong, or that is simply so.
type Cause string

// The causes.
const (
	MoreThanEaten  Cause = "more-than-eaten" // more food than these worms eat
	TooWet         Cause = "too-wet"
	TooDry         Cause = "too-dry"
	NoAir          Cause = "no-air"
	AcidBed        Cause = "acid-bed"
	MuchNitrogen   Cause = "much-nitrogen"
	AnimalFood     Cause = "animal-food"  // meat, fish, dairy, fat
	SelfHeating    Cause = "self-heating" // thick fresh food heats the bed
	HotPlace       Cause = "hot-place"    // sun or a hot room
	ColdPlace      Cause = "cold-place"
	SettlingIn     Cause = "settling-in" // a new bin
	Starved        Cause = "starved"
	Crowded        Cause = "crowded"
	OldCastings    Cause = "old-castings" // too long without a harvest
	Finished       Cause = "finished"     // ready to harvest
	SaltyFood      Cause = "salty-food"
	UncoveredFood  Cause = "uncovered-food"
	FermentingFood Cause = "fermenting-food" // starch or protein; keepers call it sour crop or protein poisoning
	SlowFood       Cause = "slow-food"       // citrus, onion, woody pieces
	ParasiticMites Cause = "parasitic-mites"
	SoilVisitors   Cause = "soil-visitors" // hunters that came in from the ground
	OrdinaryLife   Cause = "ordinary-life" // part of a healthy bin
	OpenBin        Cause = "open-bin"      // loose lid, wide gaps
	JumpingWorms   Cause = "jumping-worms" // Amynthas or Metaphire
)

// Causes returns every cause, in the order in which equals are named.
func Causes() []Cause {
	out := make([]Cause, len(network))
	for i, n := range network {
		out[i] = n.cause
	}
	return out
}
