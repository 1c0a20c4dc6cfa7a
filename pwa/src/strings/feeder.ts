// Words of the feeder's screen. Short ones: it is made for a child.

export const feeder = {
	which: "Which bin?",
	into: (tray: string) => (tray ? `Food goes into ${tray}` : ""),
	canHave: (amount: string, spot: string) => `They can have about ${amount}. Put it ${spot}.`,
	canHavePlain: (amount: string) => `They can have about ${amount}.`,
	notToday: "Not today.",
	notTodayWhy: "They are busy with what they have. Freeze it, or ask.",
	howMuch: "How much?",
	much: { less: "half of that", about: "that much", more: "more" },
	muchPlain: { less: "a handful", about: "a mug", more: "a big bowl" },
	from: "The food is",
	noBowl: "from my hands",
	fed: "Fed",
	freeze: "Into the freezer",
	frozen: "Into the freezer",
	ask: "Ask a grown-up",
	asks: (name: string) => `${name} asks`,
	asked: "It waits; a grown-up will see it",
	bowlWaits: "The bowl waits. A grown-up will see it.",
	told: (who: string, amount: string, tray: string, ration: string) =>
		`${who} fed ${amount} into ${tray}; ${ration} was advised.`,
	toldNone: (who: string, amount: string, tray: string) =>
		`${who} fed ${amount} into ${tray}; nothing was to go in.`,
	choice: "Simple screen for feeding, on this phone",
	choices: { child: "for children", on: "always", off: "never" },
} as const;
