// Words of the parts, Today, Tray and Look.

const n = (count: number, one: string, many: string): string =>
	`${count} ${count === 1 ? one : many}`;

export const parts = {
	firstGuess: "first guess",
	trial: "trial",
	ruleOfThumb: "rule of thumb",
	likelyGone: "gone in here, 8 times of 10",
	less: (amount: string) => `${amount} less`,
	more: (amount: string) => `${amount} more`,
	amount: "Amount",
	operators: { "×": "times", "−": "less", "+": "plus", "≤": "at most", "≈": "about" } as Record<
		string,
		string
	>,
	saving: "saving…",
	saved: "saved",
	undo: "Undo",
	back: "Back",
	loading: "Opening the field book…",
	remembered: (time: string) => `from ${time}, the engine is starting`,
	rememberedDay: (day: string, time: string) => `from ${day}, ${time}; today's is being worked out`,
	noView: "This page could not be worked out.",
	tryAgain: "Try again",
	fedBy: "Fed by",
	weighedBy: "Weighed by",
	lookedBy: "Looked by",
	writtenBy: "By",
	change: "change",
	guest: "a guest",
	guestName: "Guest’s name",
	someone: "someone",
} as const;

export const places = {
	today: "Today",
	weigh: "Weigh",
	scan: "Scan",
	look: "Look",
	more: "More",
} as const;

export const faults = {
	full: "This phone's storage is full, so nothing was saved. Free some space and press again; what you entered is still here.",
	locked:
		"A newer version of the app has been here, so this one may only read. Reload the page, then press again.",
	broken: (detail: string) =>
		`It could not be saved (${detail}). What you entered is still here: press again, or reload.`,
	refused: (detail: string) => `It could not be saved: ${detail}. Change it and press again.`,
	codes: {
		"bowl-empty": "Somebody has placed this bowl already; nothing was written twice.",
		"unknown-bowl": "Somebody has taken this bowl back; weigh it again if it is still there.",
		"more-than-bowl":
			"Somebody has taken some of this bowl meanwhile: look at what is left and place it again.",
		"tray-removed": "This tray was taken out of its bin. Choose another tray.",
		"tray-elsewhere": "That tray belongs to another bin. Choose one of this bin.",
		"unknown-bin": "This phone doesn't know that bin yet. Wait until everything is shared.",
		"unknown-entry": "This phone doesn't know that entry yet. Wait until everything is shared.",
		"batch-open": "Something still lies in that tray. Empty it first, or say that it is empty.",
		"too-big": "That is more text than one entry holds. Shorten the note and press again.",
		empty: "There is nothing to write down yet. Say at least one thing.",
		"unknown-tray": "This phone doesn't know that tray yet. Open it by its label.",
		"too-many": "More entries than one bowl holds. Place this one and begin another.",
		"unknown-member": "That person is no longer in the household. Choose somebody else or a guest.",
		role: "This phone may look, but not write. A keeper can change that under Household.",
		negative: "An amount can't be less than nothing. Mend the figure and press again.",
		zero: "There is no amount yet. Type one, or say that it isn't weighed.",
		"too-much": "Nobody carries that much to a worm bin. Check the unit and press again.",
		"bad-temp": "No bed has that temperature. Mend it and press again.",
	} as Record<string, string>,
	slipAsk: (amount: string, limit: string) => `${amount}? The ration is ${limit}.`,
	slipAskPlain: (amount: string, limit: string) => `${amount}? More than ${limit} at once is rare.`,
	slipRefuse: (amount: string, limit: string) =>
		`${amount} is more than ${limit}: it looks like a slip of the key.`,
	slipYes: (amount: string) => `Yes, ${amount}`,
	slipMend: "Mend it",
	slipInBin: "It is already in the bin",
} as const;

export const today = {
	into: "into ",
	smallAtFirst: ", small at first",
	about: (vessel: string) => `about ${vessel}`,
	firstGuess: "first guess, from the handbook",
	nextMeal: (day: string) => `Next meal on ${day}.`,
	fedToday: (amount: string) => `${amount} already fed today`,
	noBins: "No bin is written down yet. A keeper sets one up; then its ration stands here.",
	noBinsYet:
		"No bin is written down yet. Set one up in a few questions; then its ration stands here.",
	waiting: "Waiting to be placed",
	bowl: (name: string) => ` in ${name || "the bowl"}`,
	/** `day` is "" for today. */
	bowlBy: (who: string, time: string, day: string) =>
		`, weighed by ${who}${time ? ` at ${time}` : ""}${day ? `, ${day}` : ""}`,
	unweighedBowl: "Some, not weighed,",
	toFreezer: (amount: string) => `${amount} to the freezer`,
	toWaste: (amount: string) => `${amount} to the waste`,
	toTray: (amount: string, name: string) => `${amount} ${name}`,
	placeAsDrawn: "Placed as drawn",
	splitMyself: "Split it myself",
	splitLeft: (amount: string) => `${amount} stays in the bowl`,
	splitOver: (amount: string) => `${amount} more than the bowl holds: lower one of them.`,
	placeSplit: "Placed like this",
	keepDrawn: "Back to the drawing",
	freezer: "Freezer",
	waste: "Household waste",
	placed: (amount: string) => `${amount} placed`,
	due: "Also due",
	freezerStock: (amount: string) => `${amount} in the freezer`,
	asides: (count: number) => `${n(count, "entry needs", "entries need")} attention`,
	unread: (count: number) => `${n(count, "entry needs", "entries need")} a newer app`,
	double: (amount: string) => `Fed twice, out of each other's sight: ${amount} in all.`,
	doubleLine: (amount: string, who: string, time: string) =>
		`${amount} by ${who}${time ? ` at ${time}` : ""}`,
	doubleEnd: "Both stay written down; the ration has counted both.",
	stackLabel: (bin: string, trays: string) => `${bin} in section, from the top down. ${trays}`,
	tierSays: (name: string, stage: string, worms: string) => `${name}, ${stage}, worms ${worms}`,
	bowlLabel: (lines: string) => `The bowl, from the top down: ${lines}.`,
	jobs: {
		look: {
			words: "Look at ",
			after: (days: number) => `${n(days, "day", "days")} since the last look`,
			act: "Look",
		},
		"bed-next": { words: "Bed the next tray over ", after: () => "it is nearly full", act: "Open" },
		rest: { words: "Let it rest: ", after: () => "it is full", act: "Open" },
		harvest: { words: "Harvest ", after: () => "its castings are ready", act: "Open" },
		"look-again": {
			words: "Look again at ",
			after: (days: number) => `trouble was noted ${n(days, "day", "days")} ago`,
			act: "Look",
		},
		ready: { words: "See whether it is ready: ", after: () => "", act: "Open" },
		temp: { words: "Read the bed's temperature in ", after: () => "", act: "Look" },
	} as Record<string, { words: string; after: (days: number) => string; act: string }>,
	jobAct: { rest: "Let it rest", "bed-next": "Bedded" } as Record<string, string>,
	jobDone: {
		rest: (name: string) => `${name} rests`,
		"bed-next": (name: string) => `${name} bedded`,
	} as Record<string, (name: string) => string>,
	bedsNext: (name: string, bedding: string) =>
		`${name} stands empty on top; bed it as the last one: ${bedding}`,
	jobBy: (day: string) => `by ${day}`,
	job: { words: "See to ", act: "Open" },
} as const;

export const tray = {
	sub: (bin: string, stage: string, day: number) => `${bin}, ${stage}, day ${day}`,
	subPlain: (bin: string, stage: string) => `${bin}, ${stage}`,
	likely: (low: string, high: string) => `likely between ${low} and ${high}`,
	aboutVessel: "about ",
	quarters: ["", "a quarter of a ", "half a ", "three quarters of a ", "a "] as const,
	manyVessels: (count: string, name: string) => `${count} × ${name}`,
	bedding: (amount: string) => `With it about ${amount} of dry bedding.`,
	bedGuess: (temp: string) => `Bed taken as ${temp}, by the season: nobody has read it lately.`,
	mayMiss:
		"May miss a feeding: this is what the phone knew before it was closed; the engine is starting.",
	missNever: "May miss a feeding: this phone has not heard from the household yet.",
	missSince: (time: string) =>
		`May miss a feeding: this phone last heard the household at ${time}.`,
	missSinceDay: (day: string, time: string) =>
		`May miss a feeding: this phone last heard the household on ${day} at ${time}.`,
	why: (amount: string) => `Why ${amount}`,
	scaleLabel: (ration: string, low: string, high: string, ruleLow: string, ruleHigh: string) =>
		`Scale: ration ${ration}, likely ${low} to ${high}, rule of thumb ${ruleLow} to ${ruleHigh}.`,
	rule: (low: string, high: string) =>
		`A quarter to a third of their weight a day, for four days at most, would be ${low} to ${high}. Guides differ twofold; your bin decides.`,
	promise: (day: string) => `Should be gone by ${day}`,
	promiseLabel: (day: string, first: string, last: string) =>
		`The meal shrinks day by day and should be gone by ${day}; eight times of ten between ${first} and ${last}.`,
	score: (kept: number, of: number) =>
		["Right ", String(kept), " of the last ", String(of)] as const,
	noScore: "No promise has come due yet.",
	stack: "The stack",
	takes: "takes food",
	worms: (span: string) => `worms ${span}`,
	noWorms: "no worms recorded",
	stackKey: (amount: string) =>
		`One stroke is ${amount} of worms. The wider its halo, the less sure.`,
	where: "Where in the tray",
	spotsLabel: "Where the food went, seen from above",
	spotSays: (name: string, next: boolean, day: string) =>
		`${name}${next ? ", next" : ""}${day ? `, fed last on ${day}` : ", not fed yet"}`,
	nextSpot: "next",
	front: "front, where you stand",
	spotHint: (spot: string) => `Tap where the food went; longest ago it was ${spot}.`,
	spotHintPlain: "Tap where the food went.",
	spotChosen: (spot: string) => `It goes ${spot}.`,
	spotWritten: (spot: string) => `Written down as ${spot}. Tap another place if it went there.`,
	last: "Last feedings",
	noFeeds: "Nothing has been fed here yet.",
	placed: (spot: string) => `placed ${spot}`,
	loggedOn: (who: string) => `on ${who}'s phone`,
	guestTag: "guest",
	bowlAll: (amount: string) => `all ${amount} here`,
	bowlRest: (amount: string, rest: string) => `${amount} here, ${rest} to the freezer`,
	bowlPart: (amount: string, rest: string) => `${amount} here, ${rest} stays`,
	bowlNone: "not from the bowl",
	bowlChoice: "From the bowl",
	bowlWhich: "Which bowl",
	fed: (amount: string) => `Fed ${amount}`,
	fedSaid: (amount: string, name: string) => `${amount} into ${name}`,
	fedAt: (amount: string, name: string, spot: string) => `${amount} into ${name}, ${spot}`,
	fedBy: (amount: string, name: string, who: string) => `${amount} into ${name}, by ${who}`,
	look: "Look",
	weigh: "Weigh",
	weighInstead: "Weigh the scraps for this tray",
	amountLabel: (name: string) => `Amount fed into ${name}`,
	zero: (day: string) => `Nothing more today; the next meal is on ${day}.`,
	holdWhy: "Why",
	holdUntil: "Until",
	holdLook: "Look",
	holdLookDay: (day: string) => `${day}; by then the hold ends or changes`,
	instead: (amount: string) => `Your ${amount} instead`,
	insteadPlain: "What to do instead",
	openInstead: (name: string) => `Open ${name}`,
	freezeAct: "Freeze",
	freezeSays: (amount: string) => `Freeze ${amount}`,
	freezeWhy: "it keeps, and is eaten sooner after thawing",
	carryAct: "Carry",
	carrySays: (amount: string, name: string) => `${amount} into ${name}`,
	wasteAct: "Out",
	wasteSays: "Or the household waste",
	wasteWhy: "if the freezer is full",
	fedAnyway: "It was fed anyway",
	fedAnywayHelp: "Written down. What helps now: cover it well, leave the lid ajar, look tomorrow.",
	helpsNow: "What helps now",
	covered: "Covered",
	coveredSaid: (name: string) => `${name} covered`,
	askSkip: "Skip",
	unlogged: "Did somebody feed without writing it down?",
	unloggedWhy: "More lies there than the log explains.",
	unloggedAnswers: { yes: "Yes, or probably", no: "No" } as Record<string, string>,
	problem: {
		removed: {
			title: "This tray was taken out",
			words:
				"Its label still opens this page, but the tray is no longer in a bin. Move the label to a tray in use, or open another one.",
		},
		unclaimed: {
			title: "A label on no tray yet",
			words:
				"No tray of this household carries this code. It may be a blank label, another household's, or one that this phone has not heard of yet.",
		},
		malformed: {
			title: "That is no label code",
			words:
				"A letter or figure is wrong or missing. Read it off the label once more and type it here; hyphens and small letters don't matter.",
		},
	},
	codeLabel: "Code on the label",
	codeOpen: "Open tray",
} as const;
