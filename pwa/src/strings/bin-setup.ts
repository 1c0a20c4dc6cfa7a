// Words of a bin's own page: setting one up, its worms, its trays.

export const bins = {
	title: "Bins and worms",
	lead: "Set a bin up, its trays, worms bought or lost",
	newTitle: "A new bin",
	newLead:
		"A few questions, once. What stands there already is our suggestion; all of it can be changed later.",
	list: "All bins of the household",
	another: "Set up another bin",
	set: "Set up a bin",
	planFirst: "Plan first: what to buy, and when",
	keeperOnly: "Only a keeper can change this.",
	since: (species: string, day: string) => `${species}, since ${day}`,

	name: "What do you call it?",
	nameHint: "After the place it stands in, for example: Cellar.",
	species: "Which worms?",
	speciesHint:
		"Trade names are no species and stocks are often mixed. If in doubt, take “not sure”.",
	speciesNames: {
		"eisenia-fetida": "Red compost worm",
		"dendrobaena-hortensis": "European nightcrawler",
		"eudrilus-eugeniae": "African nightcrawler",
		"perionyx-excavatus": "Blue worm",
		"not-sure": "Not sure",
		"jumping-worms": "Jumping worms",
	} as Record<string, string>,
	speciesSay: {
		"eisenia-fetida": "Eisenia fetida or andrei: what most keepers have",
		"dendrobaena-hortensis": "Dendrobaena hortensis or veneta: big, breeds slowly",
		"eudrilus-eugeniae": "Eudrilus eugeniae: big, needs warmth",
		"perionyx-excavatus": "Perionyx excavatus: quick, needs warmth, wanders",
		"not-sure": "Reckoned as red compost worms, with wider bounds",
		"jumping-worms": "Amynthas, Metaphire: no numbers, a caution",
	} as Record<string, string>,
	jumping: {
		title: "No bin for jumping worms",
		law: "Amynthas and Metaphire harm woodland soils and are banned in places: Minnesota, since July 2024, lets nobody keep, buy or move them without a permit. Trayside gives no numbers for them.",
		looks:
			"They thrash when touched, may shed their tail, and leave dry, gritty castings. Their collar is smooth, milky and flush all round; that of compost worms is raised, like a saddle. Blue worms twitch too.",
		doing:
			"Let none out, give none away, and keep their castings in the bin. Ask your local authority what to do with them: local rules decide.",
		other: "If it is not certain, take another kind or “not sure” above.",
	},

	trays: "Its trays",
	trayName: "Name of the tray",
	trayNth: (nth: string) => `Tray ${nth}`,
	upper: "Name of the tray above",
	moreTrays: "One more tray on top",
	fewerTrays: "Without the top one",
	size: (unit: string) => `Inside of a tray, in ${unit}`,
	length: "Length",
	width: "Width",
	height: "Height",
	area: (unit: string) => `Surface, ${unit}`,
	byArea: "I only know its surface",
	bySides: "I know length and width",
	areaHint: "It is written down as a square of that surface.",
	surface: (area: string) => `That is ${area} for the worms.`,
	lengthUnits: { g: "cm", oz: "inches" } as Record<string, string>,
	areaUnits: { g: "cm²", oz: "sq in" } as Record<string, string>,
	areaOf: (area: string, unit: string) => `${area} ${unit}`,

	bedding: "Bedding in the lowest tray",
	beddings: {
		cardboard: "Cardboard",
		newsprint: "Newspaper",
		"egg-carton": "Egg cartons",
		coir: "Coconut fibre",
		"leaves-dry": "Dry leaves",
	} as Record<string, string>,
	noBedding: "None yet",
	beddingDry: (unit: string) => `All of it, dry, in ${unit}`,
	beddingOurs: (amount: string, depth: string, water: string) =>
		`${amount} is our reckoning for ${depth} mm of loose paper. Soak it in about ${water} of water until it is like a wrung-out sponge, and mix in a handful of soil.`,

	worms: "Its worms",
	wormsWhen: { later: "They come later", in: "They are in" } as Record<string, string>,
	wormsLater:
		"Good: bedding first, worms a week or two later. Write them down here when they come.",
	amountBy: { weighed: "Weighed", about: "With bedding, about", counted: "Counted" } as Record<
		string,
		string
	>,
	amountHow: "How much is known",
	amount: (unit: string) => `Worms, in ${unit}`,
	count: "How many worms",
	countOurs: (amount: string, each: string) => `About ${amount}, at ${each} g each: our reckoning.`,
	aboutHint: "The worms alone, without what clings to them: a guess will do, and counts as one.",
	wormsDay: "Put in on",

	room: "Its room",
	coolest: (unit: string) => `Coldest month, ${unit}`,
	warmest: (unit: string) => `Warmest month, ${unit}`,
	roomHint: "The means of the month, about. Left open, it counts as an ordinary room.",
	started: "Begun on",

	goal: "What you want of it",
	goals: { grow: "More worms", hold: "Stay as it is", "slow-down": "Slow down" } as Record<
		string,
		string
	>,
	goalsSay: {
		grow: "Meals rise as the colony grows",
		hold: "Meals stay where they are",
		"slow-down": "Smaller meals, fewer young",
	} as Record<string, string>,
	placing: "How it is fed",
	placings: { pocket: "In pockets", layer: "In a thin layer" } as Record<string, string>,
	placingsSay: {
		pocket: "Dug into one place, another each time",
		layer: "Spread over the whole tray",
	} as Record<string, string>,
	every: "Days between meals",
	hot: "Hot week, up to and with",
	hotHint: "Small meals until then. Leave it open when no heat is coming.",
	save: "Save",
	saved: (name: string) => `${name} changed`,
	settings: "How it is set up",

	setUp: (name: string) => `${name} is set up`,
	bad: {
		name: "Give the bin a name.",
		species: "Jumping worms can't be set up. Choose another kind.",
		tray: "Give every tray a name of its own.",
		size: "Type length, width and height as plain numbers: 5 to 200 cm, 2 to 80 inches.",
		area: "Type the surface and the height as plain numbers.",
		bedding: "Type the bedding as a plain number, or choose “none yet”.",
		amount: "Type how much there was as a plain number.",
		day: "Choose a day that is not to come.",
		room: "Type both months as plain numbers, or leave both open.",
		roomTurned: "The warmest month can't be colder than the coldest: swap the two.",
		every: "Meals are 1 to 14 days apart.",
	} as Record<string, string>,

	next: "What comes next",
	steps: {
		bed: "Bed a tray: soaked bedding, wrung out, a handful of soil. Lid on, and let it stand.",
		buy: "Get worms a week or two later; none travel in frost or heat. Write them down under “Its worms”.",
		light: "Lay them on the bedding. Leave a light on for a night or two, so that they stay.",
		alone:
			"Then leave them alone: lid on, no digging. The first meals are small, and Today says how small.",
		ration:
			"Today shows the first ration. It is a guess and looks like one, until you look at what is left.",
		labels: "Print a label for each tray, so that a scan opens it.",
	},
	toToday: "Today's ration",
	toLabels: "Labels",

	now: (span: string) => `About ${span} live in it.`,
	none: "No worms are written down yet.",
	log: "Write down",
	moves: { added: "Put in", weighed: "Weighed", removed: "Taken out", lost: "Lost" } as Record<
		string,
		string
	>,
	movesSay: {
		added: "Bought, given or moved in from another bin",
		weighed: "All of them picked out and weighed: the surest there is",
		removed: "Given away or moved to another bin",
		lost: "Died or left",
	} as Record<string, string>,
	shares: { "15": "A few", "50": "Half", "85": "Most", "100": "All" } as Record<string, string>,
	share: "How many were lost",
	day: "Day",
	into: "Tray",
	write: "Write it down",
	wrote: {
		added: "Worms put in",
		weighed: "Worms weighed",
		removed: "Worms taken out",
		lost: "Loss of worms",
	} as Record<string, string>,
	about: "about",
	lostShare: (share: string) => `lost: ${share}`,
	undo: "Undo",
	undone: "Taken back",
	all: "All in the timeline",

	where: (stage: string, days: string) => `${stage}, day ${days}`,
	sketch: (trays: string, size: string) =>
		`The bin in section as it is described: ${trays} of ${size}`,
	measures: (length: string, width: string, height: string, unit: string) =>
		`${length} × ${width} × ${height} ${unit}`,
	onTop: "Add a tray on top",
	add: "Add the tray",
	added: (name: string) => `${name} stands on top`,
	change: "Change",
	changed: (name: string) => `${name} changed`,
	bed: "Bed it",
	bedded: (name: string) => `${name} is bedded`,
	rest: "Let it rest",
	rested: (name: string) => `${name} rests`,
	wash: "Empty, washed",
	washed: (name: string) => `${name} is empty`,
	harvest: "Harvest it",
	away: "No longer in use",
	gone: (name: string) => `${name} is taken out of the bin`,
	noTrays: "It has no tray yet.",
	close: "Close",
} as const;
