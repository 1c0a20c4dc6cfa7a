// Words of Plan: what to buy for a new bin, in which order, and what comes of it.

export const plan = {
	title: "Plan a bin",
	lead: "How many worms, how much surface, what to buy when",
	intro: "Two things decide: what your kitchen makes, and how warm the room is through the year.",
	kitchen: "Your kitchen",
	known: (week: string) => `The log says about ${week} a week.`,
	by: { people: "By people", week: "By weight" } as Record<string, string>,
	people: "How many people it feeds",
	week: (unit: string) => `Scraps that worms may have, ${unit} a week`,
	weekHint: "Vegetable and fruit trimmings, coffee, tea; weigh a week's worth if you can.",
	room: "The room",
	species: "Which worms",
	best: "Those that suit the room",
	bestSay: "Chosen by its coldest and warmest month",
	make: "Work it out",
	bad: {
		nothing: "Say how many people, or how much a week.",
		"too-much": (most: string) => `More than ${most} a week is a farm's, with other rules.`,
		figure: "Type it as a plain number.",
	},
	buy: "What to buy",
	worms: (kind: string) => `of worms: ${kind}`,
	wormsBy: {
		"by-appetite": "They eat your scraps once they are settled and warm.",
		"least-stock": "Less than a pound is slow to start, as common practice has it.",
	} as Record<string, string>,
	guess: "A first guess from guides. Your bin decides.",
	scraps: (mid: string, low: string, high: string) =>
		`For about ${mid} of scraps a week (${low} to ${high}: people differ).`,
	scrapsPlain: (mid: string) => `For ${mid} of scraps a week.`,
	surface: (area: string) => `${area} of surface that is fed`,
	trays: (fed: string, size: string) =>
		fed === "1" ? `one tray of ${size} fed at a time` : `${fed} trays of ${size} fed at a time`,
	all: (all: string, stacks: string) =>
		stacks === "1"
			? `${all} trays in all, with those that ripen and one to spare`
			: `${all} trays in all, in ${stacks} stacks, with those that ripen and one to spare`,
	bedding: (litres: string, paper: string) =>
		`${litres} of loose bedding: ${paper} of shredded newspaper or plain cardboard`,
	water: (water: string, soil: string) =>
		`about ${water} of water to soak it, and ${soil} of soil as grit`,
	order: "In this order",
	steps: {
		"bin-and-bedding": "The bin, with moist bedding and the soil. Lid on, and let it stand.",
		worms: "The worms, when neither frost nor heat threatens on the way.",
		settle: "Lay them on the bedding, a light on for a night or two, then leave them alone.",
		"first-meal": "The first meal: half of what they could eat, under the bedding.",
		"full-meals": "From here on what they clear: nothing new until the last is gone.",
	} as Record<string, string>,
	from: (day: string) => `from ${day}`,
	until: (day: string, late: string) => `${day} to ${late}`,
	noDay: "no day of the coming year fits",
	whole: "When it eats everything",
	kills: (share: string) =>
		`This room kills them: in ${share} of 100 runs of the model they are dead after two years.`,
	never: "Perhaps never: within two years most runs of the model do not get there.",
	days: (mid: string, low: string, high: string) =>
		`About ${mid} after the worms come (${low} to ${high} in 8 of 10 runs of the model).`,
	dayCount: (count: number) =>
		count < 60 ? `${count} days` : `${Math.round(count / 30.4)} months`,
	beyond: "more than two years",
	years: (first: string, second: string) =>
		`It takes about ${first} % of the scraps in the first year, ${second} % in the second.`,
	cheaper: "What costs less",
	options: {
		"half-stock": "Half the worms",
		"quarter-stock": "A quarter of the worms",
		"one-tray": "One tray only, the rest to the freezer or the waste",
		"any-box": "Any box of that surface, 20 to 30 cm deep, with holes below and in the lid",
		"own-paper": "Bedding from the recycling: newspaper, egg boxes, plain cardboard without tape",
		"from-friend": "Worms from a keeper who has too many",
	} as Record<string, string>,
	soon: (amount: string) => `${amount}: everything is eaten as soon`,
	later: (amount: string, days: string, share: string) =>
		`${amount}: about ${days} later, ${share} % in the first year`,
	tooFew: (amount: string) => `${amount}: perhaps never enough`,
	takes: (week: string) => `it takes about ${week} a week`,
	suits: "Which worms, in this room",
	fits: { suits: "suits", copes: "copes", no: "does not live through the year" } as Record<
		string,
		string
	>,
	reasons: {
		"eats-all-year": "comfortable all year",
		"slow-in-winter": "slow in the coldest months",
		"slow-in-summer": "suffers in the warmest months",
		"too-cold": "too cold for it",
		"too-hot": "too hot for it",
		"easy-to-get": "easy to get",
		"breeds-fast": "breeds fast",
		"breeds-slowly": "breeds slowly",
		big: "big",
		"needs-warmth": "needs warmth",
		wanders: "leaves a bin readily",
	} as Record<string, string>,
	bed: (low: string, high: string) => `bed of ${low} to ${high}`,
	care: "Take care",
	cautions: {
		"jumping-worms": "There are no numbers for jumping worms.",
		"check-name":
			"Trade names are no species: look at what you were sold, and take “not sure” if you are not.",
		"no-release":
			"Let no worms out into woods or wild places. Some kinds are restricted: local rules decide.",
		"another-room":
			"No worms live through the year in this room. Look for one between 4 and 30 °C, or insulate the bin.",
		"wrong-species":
			"These worms do not live through the year in this room; those listed first would.",
		"hot-days": "A month's mean hides hotter days: keep the bed below 28 °C, and act at 30.",
		"cold-days":
			"A month's mean hides colder days: feed less in a cold room, and keep the bin off the floor.",
		"more-than-a-bin":
			"This is a lot for trays: a wide, low box takes the same surface with less work.",
	} as Record<string, string>,
	setUp: "Set up this bin",
} as const;
