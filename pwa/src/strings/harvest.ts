// Words of Harvest: what a tray comes to, and writing down what came out.

export const harvest = {
	title: "Harvest",
	lead: "Castings out, worms back",
	choose: "Which tray?",
	at: (tray: string, bin: string) => `${tray}, ${bin}`,
	empty: "This tray stands empty: there is nothing to harvest.",
	fill: (fill: string, height: string) => `Filled ${fill} of ${height} mm`,
	ready: (day: string, first: string, last: string) =>
		`Ready about ${day}, between ${first} and ${last}`,
	readyNow: "Ready now",
	expect: (span: string) => `Castings likely ${span}`,
	learned: (share: string, count: string) =>
		`Your harvests came to ${share} % of the published yield, by ${count}.`,
	method: "How",
	methods: {
		climb: "Climb: worms went up into the tray above",
		light: "Light: heaps in the light, worms go down",
		side: "Side: fed on one side, dug on the other",
		dig: "Dig: taken out as it was",
	} as Record<string, string>,
	castings: "Castings",
	weighed: { g: "Weighed, g", oz: "Weighed, oz" } as Record<string, string>,
	buckets: "Or counted in buckets",
	bucketHint: (volume: string) => `The household's bucket holds ${volume}.`,
	bucketNone:
		"Nobody has said yet what the bucket holds, so buckets teach nothing until a keeper does.",
	worms: { g: "Worms put back, g", oz: "Worms put back, oz" } as Record<string, string>,
	wormsHint: "Leave it open if nobody weighed them.",
	by: "Harvested by",
	note: "Note",
	bad: "That is no figure. Mend it or clear it.",
	save: "Write the harvest down",
	saved: (tray: string) => `Harvest of ${tray}`,
	emptied: (tray: string) => `${tray} is emptied`,
	empties: "The tray is empty now",
	before: "Harvests so far",
	line: (day: string, amount: string, who: string) =>
		who ? `${day}: ${amount}, ${who}` : `${day}: ${amount}`,
	bucketCount: (count: string) => (count === "1" ? "1 bucket" : `${count} buckets`),
	unmeasured: "not measured",
	mind: "Castings made this way are not treated for germs: gloves over cuts, wash your hands, keep them off food eaten raw. No worms into the wild.",
} as const;
