// Words of Weigh and the Timeline, and of the ledger's rows.

const n = (count: number, one: string, many: string): string =>
	`${count} ${count === 1 ? one : many}`;

export const weigh = {
	title: "Weigh",
	into: (tray: string) => `for ${tray}`,
	modes: { keypad: "Keypad", vessel: "Vessel", unweighed: "Not weighed" },
	modesLabel: "How it is measured",
	tareOf: (amount: string) => `tare ${amount}`,
	bowlName: "Bowl",
	bowlDefault: "Kitchen bowl",
	usual: "usual mix",
	find: "find",
	other: "other",
	findLabel: "Find a scrap",
	findNone: (typed: string) => `No scrap is called “${typed}”. Log it as other, with its kind.`,
	otherName: "What it is",
	otherClass: "Its kind",
	chopped: "chopped",
	frozen: "frozen",
	inBowl: "in the bowl",
	empty: "Nothing in the bowl yet.",
	emptyHint: "Pick what it is, type what the scale shows, press Add.",
	some: "some",
	takeOut: (name: string) => `Take out ${name}`,
	keys: { undo: "Undo", tare: "Tare", add: "Add", rub: "rub out", kg: "kg", lb: "lb", point: "." },
	keypadLabel: "Keypad",
	shows: "The scale shows",
	tared: (tare: string, inIt: string, net: string) => `less bowl ${tare} and ${inIt} in it: ${net}`,
	zeroHint:
		"Zero the scale before each scrap, or put the empty bowl on, type what it shows, press Tare.",
	belowTare: "The scale shows less than the bowl and what is in it. Check the figure or the tare.",
	noAmount: "Type an amount first.",
	full: "A bowl holds 24 entries; place this one and begin another.",
	vesselHow: (count: string, name: string, amount: string) => `${count} × ${name}: ${amount}`,
	vesselNone:
		"No vessel of yours has been weighed yet. A keeper adds one under Household: fill it with scraps once and weigh it.",
	vesselFewer: "a quarter less",
	vesselMore: "a quarter more",
	unweighedSays:
		"Some, not weighed: it is written down, and the colony's numbers get a wider range.",
	addSome: "Add some",
	surePress: (name: string) => `Add ${name} all the same`,
	waits: (amount: string) => `Bowl waits, ${amount}`,
	feed: (amount: string) => `Fed ${amount}`,
	wait: "Bowl waits",
	freeze: "Freeze",
	clear: "Empty the bowl",
	restored: "Your unfinished bowl is back.",
	savedBowl: (amount: string) => `${amount} waits for a bin; every phone of the household sees it`,
	savedFeed: (amount: string, tray: string) => `${amount} into ${tray} saved`,
	savedFreeze: (amount: string) => `${amount} to the freezer saved`,
	drawing: (lines: string) => `The bowl, from the top down: ${lines}.`,
	addMore: "Weigh another",
} as const;

export const timeline = {
	title: "Timeline",
	sub: "Everything written down, newest first",
	none: "Nothing is written down yet. The first feeding will stand here.",
	older: "Older days",
	loading: "Fetching older days…",
	start: "This is the first day.",
	undo: "Undo",
	redo: "Bring back",
	edit: "Edit",
	close: "Close",
	save: "Save the change",
	grams: "Weight",
	gramsUnit: (unit: string) => `Weight in ${unit}`,
	badAmount: (unit: string) => `Type the weight in ${unit} as a plain number, e.g. 175.`,
	undone: "undone",
	edited: "edited",
	saidUndone: "Undone",
	saidBack: "Brought back",
	saidEdited: "Changed",
	twice: "Fed twice, out of each other's sight. Both stay; undo one if it was the same meal.",
	by: (who: string) => `by ${who}`,
	onPhone: (who: string) => `on ${who}'s phone`,
	into: (names: string) => `into ${names}`,
	at: (names: string) => `at ${names}`,
	kinds: {
		feeding: "Fed",
		look: "Looked",
		bowl: "Bowl weighed",
		freezing: "To the freezer",
		discard: "To the household waste",
		worms: "Worms",
		batch: "Tray bedded",
		stack: "Trays reordered",
		label: "Label put on",
		tray: "Tray",
		bin: "Bin",
		member: "Member",
		vessel: "Vessel weighed",
		household: "Household",
	} as Record<string, string>,
	codes: {
		"left-none": "nothing left",
		"left-hard": "only hard bits left",
		"left-some": "some left",
		"left-half": "half left",
		"left-most": "most left",
		none: "nothing left",
		hard: "only hard bits left",
		some: "some left",
		half: "half left",
		most: "most left",
		added: "put in",
		removed: "taken out",
		weighed: "weighed",
		lost: "lost",
		bedded: "bedded",
		feeding: "takes food from now on",
		resting: "rests from now on",
		ready: "ready",
		emptied: "emptied",
	} as Record<string, string>,
} as const;

interface ReasonFacts {
	from: string;
	to: string;
	day: string;
}

/** The rows under a ration, by the engine's reason codes. */
export const reasons: Record<string, (f: ReasonFacts) => string> = {
	worms: (f) =>
		f.to
			? `Worms that reach this food, cautious side of ${f.from} to ${f.to}`
			: "Worms that reach this food",
	appetite: () => "what they eat in a day, by weight",
	"appetite-learned": () => "what they eat in a day, learned here",
	warmth: () => "for the bed's temperature",
	settling: () => "while they settle in",
	days: (f) => (f.day ? `days until ${f.day}'s meal` : "days until the next meal"),
	finish: () => "what they can finish",
	leftovers: (f) => (f.day ? `still lying there since ${f.day}` : "still lying there"),
	fed: () => "fed already today",
	surface: () => "at most what the surface takes in one meal",
	meal: () => "at most so many days of appetite in one meal",
	jump: () => "no more than a fifth above the last ration",
	trial: () => "a step up, as a trial",
	guess: () => "first guess: kept small",
	kitchen: () => "what the kitchen makes",
	share: () => "this tray's share of the worms",
	rounded: () => "rounded for people",
	ration: () => "ration",
};

export const jobsCount = (count: number): string => n(count, "job", "jobs");
