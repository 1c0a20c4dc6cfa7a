// Invented views for tests of screens: one household on one day, shaped as
// the engine gives them.

import type {
	Bowl,
	FeedLine,
	FreezerView,
	Person,
	RationView,
	ScrapView,
	TierView,
	TodayView,
	TrayView,
	WeighView,
} from "./types.gen.ts";

const day = "2026-11-25";

const members: Person[] = [
	{ id: "member/tamsin", name: "Tamsin" },
	{ id: "member/odell", name: "Odell" },
	{ id: "member/wren", name: "Wren", child: true },
];

const tier = (over: Partial<TierView>): TierView => ({
	id: "tray/fern",
	name: "Fern",
	code: "FERN-2345",
	stage: "feeding",
	stageDay: 41,
	widthMM: 400,
	heightMM: 145,
	beddingMM: 82,
	castingsMM: 28,
	castingsG: 2900,
	scraps: [],
	worms: { mid: 740, low: 610, high: 900 },
	takes: false,
	...over,
});

export const fern = tier({
	takes: true,
	bed: { temp: 160, tempDay: "2026-11-23", squeeze: "few-drops", squeezeDay: "2026-11-23" },
	scraps: [
		{ feeding: "feeding/a", day: "2026-11-22", spot: "back-right", fed: 200, left: 115 },
		{ feeding: "feeding/b", day: "2026-11-19", spot: "middle", fed: 150, left: 30 },
	],
});
const slate = tier({
	id: "tray/slate",
	name: "Slate",
	stage: "resting",
	stageDay: 12,
	beddingMM: 20,
	castingsMM: 62,
	castingsG: 5500,
	worms: { mid: 160, low: 90, high: 240 },
});
const moss = tier({
	id: "tray/moss",
	name: "Moss",
	stageDay: 6,
	castingsMM: 4,
	castingsG: 400,
	beddingMM: 90,
	takes: true,
	worms: { mid: 300, low: 180, high: 420 },
});

const ration: RationView = {
	grams: 175,
	likely: { mid: 184, low: 125, high: 225 },
	answer: "part",
	sure: "learned",
	reasons: [
		{ code: "worms", milli: 610000, unit: "g", from: 610, to: 900 },
		{ code: "appetite", op: "×", milli: 180, unit: "per day" },
		{ code: "days", op: "×", milli: 3000, unit: "d", day: "2026-11-28" },
		{ code: "could-finish", milli: 329400, unit: "g", sum: true },
		{ code: "rule_of_thumb", op: "compare", milli: 465000, unit: "g", from: 312, to: 465 },
		{ code: "lying", op: "−", milli: 145000, unit: "g", day: "2026-11-22" },
		{ code: "rounding", op: "≈", milli: -9400, unit: "g" },
		{ code: "ration", milli: 175000, unit: "g", sum: true },
	],
	binds: "warmth",
	rule: { low: 312, high: 465 },
	promise: {
		chance: 78,
		day: "2026-11-28",
		first: "2026-11-27",
		last: "2026-11-29",
		kept: 9,
		of: 12,
	},
	vessel: "mug",
	vessels: 4,
	feeds: 0,
	nextDay: "2026-11-28",
	bedTemp: 160,
	bedSeen: true,
	beddingG: 30,
	spot: "back-left",
	knows: { appetite: true, surface: true, breeding: false },
	moved: [],
};
const guess: RationView = {
	...ration,
	grams: 50,
	likely: { mid: 60, low: 25, high: 110 },
	answer: "part",
	sure: "guess",
	binds: "settling",
	vessel: "",
	vessels: 0,
	spot: "middle",
	rule: { low: 75, high: 100 },
};

const skins = { scrap: "onion-skin", name: "onion skins", grams: 180, cut: true };
export const bowl: Bowl = {
	id: "bowl/k",
	name: "the kitchen bowl",
	grams: 640,
	how: "scale",
	items: [
		skins,
		{ scrap: "carrot", name: "carrot peel", grams: 250 },
		{ scrap: "coffee-grounds", name: "coffee grounds", grams: 210 },
	],
	who: "Odell",
	at: "2026-11-25T18:40:00+01:00",
	split: [
		{ to: "tray", bin: "bin/cellar", tray: "tray/fern", name: "Cellar, Fern", grams: 175 },
		{ to: "tray", bin: "bin/porch", tray: "tray/moss", name: "Porch, Moss", grams: 50 },
		{ to: "freezer", grams: 415 },
	],
};

const feed = (over: Partial<FeedLine>): FeedLine => ({
	id: "feeding/a",
	bin: "bin/cellar",
	tray: "tray/fern",
	day: "2026-11-22",
	at: "2026-11-22T18:05:00+01:00",
	grams: 200,
	how: "scale",
	spot: "back-right",
	items: [
		{ scrap: "carrot", name: "carrot peel", grams: 120 },
		{ scrap: "coffee-grounds", name: "coffee grounds", grams: 80 },
	],
	who: "Wren",
	logger: "Tamsin",
	...over,
});
const feeds: FeedLine[] = [
	feed({}),
	feed({
		id: "feeding/b",
		day: "2026-11-19",
		at: "2026-11-19T08:12:00+01:00",
		grams: 150,
		who: "Odell",
		logger: "",
		spot: "middle",
		how: "as-advised",
	}),
	feed({
		id: "feeding/c",
		day: "2026-11-16",
		at: "2026-11-16T19:30:00+01:00",
		grams: 175,
		who: "Aunt Bo",
		guest: true,
		spot: "front-right",
	}),
];

export const todayView: TodayView = {
	day,
	home: "Tamsin & Odell",
	told: [],
	mass: "g",
	temp: "C",
	bins: [
		{ id: "bin/cellar", name: "Cellar", tray: "tray/fern", stack: [fern, slate], ration },
		{ id: "bin/porch", name: "Porch", tray: "tray/moss", stack: [moss], ration: guess },
	],
	bowls: [bowl],
	freezer: 1200,
	jobs: [
		{ kind: "look", bin: "bin/cellar", tray: "tray/slate", name: "Slate", days: 12 },
		{ kind: "bed-next", bin: "bin/cellar", tray: "tray/fern", name: "Fern", day: "2026-12-03" },
	],
	asides: 0,
	unread: 0,
	members,
};

const place = (spot: string, fed: string | undefined, left: number, next = false) => ({
	spot,
	left,
	...(fed ? { day: fed } : {}),
	...(next ? { next } : {}),
});
export const trayView: TrayView = {
	found: "tray",
	code: "FERN-2345",
	id: "tray/fern",
	name: "Fern",
	bin: "bin/cellar",
	binName: "Cellar",
	day,
	mass: "g",
	temp: "C",
	tier: fern,
	stack: [fern, slate],
	ration,
	bowls: [],
	feeds,
	spots: [
		place("back-left", "2026-11-02", 0, true),
		place("back-middle", "2026-11-19", 60),
		place("back-right", "2026-11-22", 115),
		place("left", "2026-11-07", 0),
		place("middle", "2026-11-19", 30),
		place("right", "2026-11-13", 12),
		place("front-left", "2026-11-11", 8),
		place("front-middle", "2026-11-10", 0),
		place("front-right", "2026-11-16", 90),
	],
	other: [{ to: "freezer", grams: 0 }],
	members,
};

const classes: Record<string, string> = {
	"onion-skin": "allium",
	carrot: "root",
	"coffee-grounds": "grounds",
	"banana-peel": "soft-fruit",
	"apple-core-peel": "soft-fruit",
	meat: "rich",
	bread: "starch",
};
const scrap = (
	id: string,
	name: string,
	group: string,
	verdict: string,
	reasons: string[] = [],
	prep: string[] = [],
): ScrapView => ({ id, name, group, class: classes[id] ?? "leafy", verdict, reasons, prep });
const scraps: ScrapView[] = [
	scrap("onion-skin", "Onion skins", "vegetable", "little", ["allium"], ["chop"]),
	scrap("carrot", "Carrot peel and tops", "vegetable", "good", [], ["chop"]),
	scrap(
		"coffee-grounds",
		"Coffee grounds",
		"drink-grounds",
		"good",
		["n-rich"],
		["mix-with-bedding"],
	),
	scrap("banana-peel", "Banana peel", "fruit", "good", ["tough"], ["chop", "freeze-thaw"]),
	scrap("apple-core-peel", "Apple cores and peel", "fruit", "good", [], ["chop"]),
	scrap("olive", "Olives in brine", "fruit", "avoid", ["salty", "oily"], ["rinse"]),
	scrap("meat", "Meat, cooked or raw", "animal", "never", ["meat", "pathogen"]),
	scrap("bread", "Bread", "starch", "little", ["starchy", "salty"], ["soak"]),
];
export const weighView: WeighView = {
	mass: "g",
	usual: [
		{ scrap: "carrot", name: "Carrot peel and tops", grams: 45 },
		{ scrap: "coffee-grounds", name: "Coffee grounds", grams: 30 },
		{ scrap: "banana-peel", name: "Banana peel", grams: 25 },
	],
	often: scraps.slice(0, 4),
	scraps,
	vessels: [
		{ id: "vessel/mug", name: "mug", grams: 180 },
		{ id: "vessel/tub", name: "blue tub", grams: 650 },
	],
	classes: [
		"soft-fruit",
		"leafy",
		"root",
		"grounds",
		"starch",
		"citrus",
		"allium",
		"rich",
		"garden",
		"hard",
		"paper",
	],
	members,
	rations: [{ to: "tray", bin: "bin/cellar", tray: "tray/fern", name: "Cellar, Fern", grams: 175 }],
	bowls: [],
	limits: [
		{ tray: "", ask: 2000, refuse: 200_000 },
		{ tray: "tray/fern", ask: 2400, refuse: 200_000 },
	],
};

/** Three trays and a base: the tall section. */
export const trayTall: TrayView = {
	...trayView,
	stack: [
		fern,
		slate,
		tier({
			id: "tray/loam",
			name: "Loam",
			stage: "ready",
			stageDay: 3,
			beddingMM: 6,
			castingsMM: 70,
			castingsG: 7300,
			worms: { mid: 20, low: 5, high: 40 },
			bed: { squeeze: "runs", squeezeDay: "2026-11-11" },
		}),
	],
	base: { heightMM: 70, liquidMM: 9, liquidML: 1500, drained: 900, day: "2026-11-18" },
};

export const freezerView: FreezerView = {
	day,
	mass: "g",
	grams: 1200,
	kinds: [
		{
			item: { scrap: "melon-rind", name: "Melon rind", grams: 640 },
			day: "2026-10-30",
		},
		{
			item: { scrap: "carrot", name: "Carrot peel and tops", grams: 410, cut: true },
			day: "2026-11-14",
		},
		{ item: { scrap: "kale", name: "Kale", grams: 150 }, day: "2026-11-22" },
	],
	room: [{ to: "tray", bin: "bin/cellar", tray: "tray/fern", name: "Fern", grams: 175 }],
	often: weighView.often,
	members,
};
