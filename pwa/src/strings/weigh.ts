// Words of Weigh and the Timeline, and of the ledger's rows.

export const weigh = {
	title: "Weigh",
	into: (tray: string) => `for ${tray}`,
	modes: { keypad: "Keypad", scale: "Scale", vessel: "Vessel", unweighed: "Not weighed" },
	modesLabel: "How it is measured",
	tareOf: (amount: string) => `tare ${amount}`,
	bowlName: "The bowl’s name",
	bowlIn: "In the",
	bowlDefault: "kitchen bowl",
	usual: "usual mix",
	find: "find",
	other: "other",
	findLabel: "Find a scrap",
	findNone: (typed: string) => `No scrap is called “${typed}”. Log it as other, with its kind.`,
	otherClass: "Its kind",
	chopped: "chopped",
	frozen: "frozen",
	inBowl: "in the bowl",
	empty: "Nothing in the bowl yet.",
	emptyHint: "Pick what it is, type what the scale shows, press Add.",
	some: "some",
	andSome: (amount: string) => `${amount} + some`,
	takeOut: "take it out",
	addNet: (net: string) => `Add ${net}`,
	keys: { undo: "Undo", tare: "Tare", add: "Add" },
	keypadLabel: "Keypad",
	tared: (tare: string, inIt: string, net: string) => `less bowl ${tare} and ${inIt} in it: ${net}`,
	zeroHint:
		"Zero the scale before each scrap, or put the empty bowl on, type what it shows, press Tare.",
	belowTare: "The scale shows less than the bowl and what is in it. Check the figure or the tare.",
	noAmount: "Type an amount first.",
	full: "A bowl holds 24 entries; place this one and begin another.",
	vesselNone:
		"Weigh a mug or a tub of yours once, full of scraps; from then on its fill lines do for the scale.",
	vesselNew: "Weigh a vessel",
	vesselAgain: "Weigh it again",
	vesselHow:
		"Fill it as you always do, weigh it, and take off what it weighs empty. Scraps differ, so it counts as a good guess.",
	vesselName: "What you call it",
	vesselGrams: (unit: string) => `Scraps in it when full, in ${unit}`,
	vesselBad: (unit: string) => `Give it a name, and the weight in ${unit} as a plain number.`,
	vesselSave: "Keep this vessel",
	vesselSaved: (name: string, amount: string) => `${name}, ${amount} when full`,
	vesselCancel: "Leave it",
	fill: ["", "a quarter full", "half full", "three quarters full", "full"] as readonly string[],
	fillShort: ["", "¼", "½", "¾", "full"] as readonly string[],
	fills: (quarters: number) => {
		const part = ["", "¼", "½", "¾"][quarters % 4] ?? "";
		return `${Math.floor(quarters / 4) || ""}${part}`;
	},
	fillLabel: (name: string) => `How full is the ${name}?`,
	vesselFewer: "a quarter less",
	vesselMore: "a quarter more",
	unweighedSays:
		"Some, not weighed: it is written down, and the colony's numbers get a wider range.",
	addSome: "Add some",
	otherIs: (name: string) => `Or log “${name}” as other. What kind is it?`,
	pressAgain: "Press once more to add it all the same.",
	surePress: "Add anyway",
	waits: (amount: string) => `Keep in bowl, ${amount}`,
	feed: (amount: string) => `Fed ${amount}`,
	more: "more",
	scale: {
		connect: "Connect a scale",
		again: "Connect again",
		leave: "Disconnect",
		what: "For scales with the standard Bluetooth service.",
		choosing: "Choose the scale in the browser's list…",
		waiting: (name: string) => `${name}: waiting for a reading.`,
		name: "The scale",
		step: (step: string) => `It measures in steps of ${step}.`,
		moving: (name: string, amount: string) => `${name}: ${amount}, not still yet.`,
		still: (name: string, amount: string) => `${name}: ${amount}, still. Press Add.`,
		lost: "The scale went away. The keypad below works as ever.",
		unread: {
			failed: "The scale could not measure. Lift everything off, then try again.",
			negative: "The scale shows less than nothing. Zero it, then put the scraps on.",
			foreign: "The scale sends something that is not of the standard. Type what it shows.",
			unknown: "The scale sends no weight. Type what it shows.",
		} as Record<string, string>,
		no: {
			forbidden:
				"The browser did not allow Bluetooth. Is it switched on, and allowed for this page?",
			foreign: "This scale does not speak the standard service. Type what it shows.",
			lost: "No connection. Wake the scale, hold the phone near it, and try again.",
		} as Record<string, string>,
	},
	with: {
		bedding: (amount: string) => `Bedding with it: ${amount}`,
		dryOf: (name: string) => `weighed dry: ${name}`,
		handfuls: (count: string, amount: string) => `${count}, ${amount}`,
		handful: (halves: number) => {
			const count = halves === 1 ? "½" : `${Math.floor(halves / 2)}${halves % 2 ? "½" : ""}`;
			return `${count} ${halves > 2 ? "handfuls" : halves === 2 ? "handful" : "a handful"}`;
		},
		about: (amount: string) => `about ${amount}`,
		dry: "No bedding needed: this is dry enough.",
		calibrate: "Say it in handfuls",
		again: "Weigh the handful again",
		how: "Put ten handfuls of your dry bedding on the scale, as you grab them.",
		ten: (unit: string) => `Ten handfuls together, in ${unit}`,
		which: "Which bedding",
		save: "Keep this handful",
		saved: (amount: string) => `One handful is ${amount}`,
		bad: (unit: string) => `Type the weight in ${unit} as a plain number.`,
		leave: "Leave it",
		rations: "What becomes of it",
		into: (name: string, amount: string) => `${amount} into ${name}`,
		left: (amount: string) => `then ${amount} more today`,
		full: "then it has had enough today",
		over: (amount: string) => `its ration is ${amount}`,
		freezer: (amount: string) => `${amount} into the freezer`,
		waste: (amount: string) => `${amount} out with the household waste`,
		later: "wait for another day",
		notFood: "not for the worms",
		unweighed: "Without a weight, the rations stay as they are and get a wider range.",
	},
	wait: "Keep in bowl",
	fed: "Fed",
	freeze: "Freeze",
	clear: "Empty the bowl",
	restored: "Your unfinished bowl is back.",
	savedBowl: (amount: string) => `${amount} waits for a bin, on every phone of the household`,
	savedFeed: (amount: string, tray: string) => `${amount} into ${tray}`,
	savedFreeze: (amount: string) => `${amount} to the freezer`,
	drawing: (lines: string) => `The bowl, from the top down: ${lines}.`,
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
	days: (f) => (f.day ? `days until ${f.day}'s meal` : "days until the next meal"),
	"could-finish": () => "what they could finish",
	"days-of-appetite": () => "at most so many days of appetite in one meal",
	settling: () => "while they settle in",
	"warm-bed": () => "for a warm bed",
	"goal-hold": () => "to hold the colony as it is",
	"goal-slow-down": () => "to slow the colony down",
	resting: () => "the tray rests",
	trial: () => "a step up as a trial, after two clean looks",
	lure: () => "a little more, to draw worms up",
	surface: () => "at most what the surface takes in one meal",
	lying: (f) => (f.day ? `still lying there, since ${f.day}` : "still lying there"),
	"hot-week": () => "small meals in a hot week",
	pocket: () => "at most what one place holds, 5 cm deep",
	layer: () => "at most a thin layer, 2.5 cm deep",
	"seen-left": () => "nothing new until what was seen there is eaten",
	"not-below-nothing": () => "never less than nothing",
	"fed-today": () => "fed already today",
	rule_of_thumb: () => "to compare, the rule of thumb",
	"rule-cap": () => "at most half as much again as the rule of thumb, until two clean looks",
	handful: () => "a handful more, to see whether it is eaten",
	"last-ration": () => "at most a fifth above the last ration",
	"last-meal": () => "at most as much as last time, when much was left",
	"after-smell": () => "half, until somebody has smelled it again",
	hold: () => "on hold: nothing goes in",
	trouble: () => "for the trouble that a look found",
	rounding: () => "rounded for people",
	ration: () => "may go in today",
};

/** The last row of the ledger, when the sum was rounded. */
export const rounded = (exact: string, up: boolean): string =>
	`${exact}, rounded ${up ? "up" : "down"}`;
