// The engine's codes in words. A code that is not here is shown as it is, with
// its hyphens as spaces, so that a newer engine never leaves a row empty.

export const spots = {
	"back-left": "back left",
	"back-middle": "back middle",
	"back-right": "back right",
	left: "left",
	middle: "middle",
	right: "right",
	"front-left": "front left",
	"front-middle": "front middle",
	"front-right": "front right",
} as const;

export const answers: Record<string, { brief: string; big: string }> = {
	all: { brief: "all here", big: "All of it here" },
	part: { brief: "part now", big: "Part of it here" },
	elsewhere: { brief: "elsewhere", big: "Into another tray" },
	freeze: { brief: "freeze", big: "Freeze it" },
	cover: { brief: "cover, wait", big: "Cover and wait" },
	waste: { brief: "household waste", big: "Out with the household waste" },
};

export const stages: Record<string, string> = {
	bedded: "bedded",
	feeding: "feeding",
	resting: "resting",
	ready: "ready",
	emptied: "emptied",
};

/** What holds a ration down. */
export const binds: Record<string, (bedTemp: string) => string> = {
	worms: () => "Set by how many worms can reach it.",
	surface: () => "Set by the surface of the tray.",
	warmth: (t) => `Held down by the bed's temperature: ${t}.`,
	moisture: () => "Held down by how wet, dry or sour the bed is.",
	kitchen: () => "Set by what the kitchen makes; the worms could take more.",
	leftovers: () => "Held down by what still lies there.",
	settling: () => "Small at first: the worms are settling in.",
	resting: () => "This tray rests; it takes no food.",
	trouble: () => "Held down by the trouble that a look found.",
	days: () => "Held to a few days of appetite at a time.",
};

/** The cheapest next move. */
export const moves: Record<string, string> = {
	look: "A look at the leftovers would sharpen this most.",
	"bed-next-tray": "Bedding the next tray on top gives them more surface.",
	moisten: "Moistening the bed until a squeezed handful gives a drop helps most.",
	"add-eggshell": "Crushed eggshell and fresh bedding, mixed in, take the acid down.",
	"log-worms": "No live worms are written down here: write down those that are in it.",
	"look-first":
		"Nobody has looked in here yet, and the temperature is only the season's: look first.",
	"warmer-place": "In a warmer place they would eat more.",
	"cooler-place": "A cooler place comes first.",
	"save-scraps": "Scraps saved from other days would be eaten too.",
	"leave-alone": "Leave them alone for now; it grows by itself.",
	"feed-open-tray": "Feed the open tray instead.",
	"feed-oftener": "Smaller meals, more often, would come to more.",
	"let-grow": "It rises as the colony grows.",
	"add-dry-bedding": "Dry bedding on top helps most.",
	"lift-out-food": "Lifting out what smells helps most.",
};

/** Why a hold is on, what ends it, what to do tonight. */
export const holdCauses: Record<string, string> = {
	"hot-bed": "The bed is at 30 °C or more",
	ammonia: "Smells of ammonia",
	sour: "Smells sour",
	rot: "Smells of rot",
};
export const holdReleases: Record<string, string> = {
	"bed-below-28": "the bed is below 28 °C",
	"smells-earthy": "it smells of earth again",
};
export const holdSteps: Record<string, string> = {
	"hot-bed": "Lid off, top layer spread thin, the bin moved to a cooler place.",
	ammonia: "Two handfuls of dry bedding on top, lid ajar tonight.",
	sour: "Lift out what smells, two handfuls of dry bedding on top, lid ajar tonight.",
	rot: "Lift out what rots, two handfuls of dry bedding on top, lid ajar tonight.",
};

/** Why a scrap asks for care. Neutral facts have no words. */
export const scrapReasons: Record<string, string> = {
	acid: "It turns the bed acid.",
	alcohol: "Alcohol harms worms.",
	alkaline: "It turns the bed alkaline.",
	allium: "Worms shun it while it is fresh.",
	ammonia: "It gives off ammonia.",
	chem: "It may carry chemicals.",
	"citrus-oil": "The oil of its peel harms worms.",
	dairy: "Dairy turns rancid and draws flies.",
	dense: "It packs tight and keeps air out.",
	dust: "Its dust is bad to breathe.",
	heat: "It heats up in a heap.",
	"hot-spice": "Hot spice burns worms.",
	mats: "It mats and keeps air out.",
	meat: "Meat rots, smells and draws rats.",
	odour: "It smells strongly.",
	oily: "Oil keeps air from the worms.",
	pathogen: "It can carry disease.",
	pest: "It draws pests.",
	plastic: "It leaves plastic behind.",
	resin: "Its resin harms worms.",
	salty: "Salt harms worms.",
	seeds: "Its seeds sprout.",
	sprouts: "It sprouts.",
	starchy: "In lumps it ferments.",
	sugary: "It draws fruit flies.",
	tough: "It takes long.",
	wet: "It brings much water.",
};
export const scrapPrep: Record<string, string> = {
	age: "age it first",
	bury: "bury it",
	chop: "chop it",
	cook: "cook it first",
	crush: "crush it",
	dry: "dry it first",
	"dust-thinly": "dust it on thinly",
	"empty-contents": "empty it first",
	"freeze-thaw": "freeze and thaw it",
	mix: "mix it in",
	"mix-with-bedding": "mix it with bedding",
	moisten: "moisten it",
	"remove-staples": "take out staples",
	"remove-stickers": "take off stickers",
	"remove-tape": "take off tape",
	rinse: "rinse it",
	shred: "shred it",
	soak: "soak it",
	tear: "tear it small",
	"tease-apart": "tease it apart",
	"thin-layer": "lay it thin",
	wilt: "let it wilt first",
};
export const verdicts: Record<string, string> = {
	good: "Good food.",
	little: "Sparingly.",
	avoid: "Better not.",
	never: "Keep it out.",
};
export const classes: Record<string, string> = {
	"soft-fruit": "soft fruit",
	leafy: "leaves, trimmings",
	root: "roots, peel",
	grounds: "coffee, tea",
	starch: "bread, rice, pasta",
	citrus: "citrus",
	allium: "onion, garlic",
	rich: "meat, dairy, oil",
	garden: "garden cuttings",
	manure: "manure",
	hard: "hard bits",
	paper: "paper, card",
	grit: "grit, eggshell",
	foreign: "no food",
};

/** How an amount was found. */
export const hows: Record<string, string> = {
	scale: "weighed",
	vessel: "by the vessel",
	unweighed: "not weighed",
	"as-advised": "as advised",
};

export const leftovers: Record<string, string> = {
	none: "none",
	hard: "hard bits",
	some: "some",
	half: "half",
	most: "most",
};
export const squeezes: Record<string, string> = {
	crumbles: "falls apart",
	holds: "holds, dry",
	"one-drop": "one drop",
	"few-drops": "a few",
	runs: "runs",
};
export const smells: Record<string, string> = {
	earthy: "earthy",
	none: "none",
	sour: "sour",
	ammonia: "sharp, stings the nose",
	rot: "rotten",
};
