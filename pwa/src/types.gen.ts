// Written by "go run ./cmd/dev gen" from the Go structs that cross the border; edits are lost.

/**
 * BatchView is what lies in a tray and what becomes of it. Moisture is told as
 * what a squeeze would give, never as a percentage.
 */
export interface BatchView {
	/** false: no such tray, or it stands empty */
	found: boolean;
	tray: string;
	name: string;
	bin: string;
	binName: string;
	/** "" if only its feedings tell of it */
	batch?: string;
	day: string;
	mass: string;
	stage: string;
	/** first day is 1 */
	stageDay: number;
	bedded?: string;
	fillMM: number;
	heightMM: number;
	/** crumbles, holds, one-drop, few-drops, runs */
	squeeze: string;
	/** ran off in the last seven days, as poured away or else as reckoned */
	dripsML: number;
	/** water that brings a dry bed right, 0 for none */
	moistenML: number;
	/** dry paper that brings a wet one right */
	soakG: number;
	/** share of the dry matter that has decayed, of 1000 */
	done: number;
	darkens?: string;
	full?: WhenView;
	nextTray?: WhenView;
	ready?: WhenView;
	/** what ends the feeding: full, old, resting */
	ends?: string;
	/** g, moist, at the harvest */
	castings: Span;
	/** ml */
	volume: Span;
	yield: YieldView;
	/** of this tray, newest first, at most harvestLines */
	harvests: HarvestLine[];
	/** the household's bucket, 0 if none */
	bucketML: number;
	members: Person[];
}

/** WhenView is a day with the ends of its likely range, 8 times of 10. */
export interface WhenView {
	day: string;
	first: string;
	last: string;
}

/**
 * YieldView is the household's own yield against the published one, learned
 * from its harvests.
 */
export interface YieldView {
	/** 1000 is as published */
	milli: number;
	/** harvests it stands on */
	seen: number;
}

/** HarvestLine is one harvest in a list. Amounts are 0 where nobody measured. */
export interface HarvestLine {
	id: string;
	day: string;
	method?: string;
	grams: number;
	ml: number;
	/** tenths */
	buckets: number;
	/** g put back */
	worms: number;
	who: string;
}

/**
 * BinSheet is what a bin is: what its keeper said of it, its trays, and how its
 * worms came and went. For no bin it holds what a new one is set up with.
 */
export interface BinSheet {
	found: boolean;
	id?: string;
	name?: string;
	day: string;
	mass: string;
	temp: string;
	species?: string;
	goal?: string;
	placing?: string;
	/** days, 0 if nobody said */
	feedEvery: number;
	started?: string;
	/** last day of the hot week */
	hotUntil?: string;
	room?: RoomView;
	/** from the top down */
	trays: SheetTray[];
	/** newest first, at most wormLines */
	moves: WormLine[];
	worms?: Span;
	/** all bins in use */
	bins: Place[];
	sizes: WormSize[];
	fresh: FreshBed;
}

/**
 * RoomView is where a bin stands: means of the coldest and the warmest month,
 * 0.1 °C.
 */
export interface RoomView {
	coolest: number;
	warmest: number;
}

/** SheetTray is a tray as its keeper knows it. */
export interface SheetTray {
	id: string;
	name: string;
	code?: string;
	stage: string;
	/** first day is 1, 0 for an empty tray */
	stageDay: number;
	/** what lies in it */
	batch?: string;
	bedding: ItemView[];
	/** mm inside */
	width: number;
	depth: number;
	height: number;
}

/** WormLine is worms that came, went, were weighed or lost. */
export interface WormLine {
	id: string;
	day: string;
	move: string;
	grams: number;
	/** per cent of the colony that was lost */
	share?: number;
	/** with bedding or by eye */
	wide?: boolean;
	/** its name */
	tray?: string;
}

/** WormSize is what one worm of a species is taken for when worms are counted. */
export interface WormSize {
	species: string;
	mg: number;
}

/**
 * FreshBed is what new bedding takes for a square metre of tray: dry paper, the
 * water that it soaks up, and the depth it comes to.
 */
export interface FreshBed {
	gramsPerM2: number;
	/** ml */
	waterPerM2: number;
	depthMM: number;
	/** a tray */
	soilG: number;
}

/**
 * CardView is what somebody needs who types in what stands on a bin's paper
 * card: for each day what is known already, and the usual amount.
 */
export interface CardView {
	day: string;
	mass: string;
	temp: string;
	bins: CardBin[];
	members: Person[];
	vessels: VesselView[];
	/** what the meals of a card are of: it does not say */
	scrap: string;
}

/** CardBin is one bin's card. */
export interface CardBin {
	id: string;
	name: string;
	/** g of a usual meal; 0 where nobody has weighed one */
	usual: number;
	/** id of the vessel it fills nearly */
	vessel?: string;
	/** what the household calls that */
	called?: string;
	/** how many of it, in quarters */
	vessels?: number;
	/** those in it now, from the top down */
	trays: CardTray[];
	/** newest first */
	days: CardDay[];
}

/**
 * CardTray is a tray that a meal on the card may have gone into: the card is of
 * the bin and does not say which.
 */
export interface CardTray {
	id: string;
	name: string;
}

/** CardDay is one day of a bin as it is known already. */
export interface CardDay {
	day: string;
	/** the tray that took food that day, "" if none did */
	tray: string;
	name: string;
	feeds: number;
	grams: number;
	looked?: boolean;
}

/**
 * CatchUpView is what can be written down after the fact: by bin, the usual meal
 * and the days on which nobody wrote one.
 */
export interface CatchUpView {
	day: string;
	mass: string;
	bins: Missed[];
	members: Person[];
}

/** Missed is one bin that may have been fed without a line in the log. */
export interface Missed {
	bin: string;
	name: string;
	/** that takes food */
	tray: string;
	/** its name */
	into: string;
	last?: string;
	/** since the last meal that was written down */
	days: number;
	/** g of a meal, by the last ones */
	usual: number;
	/** of such a meal */
	items: ItemView[];
	/**
	 * Week lists up to three days of the last seven without a meal, oldest first,
	 * as far apart as they lie: where "about three times this week" is written.
	 */
	week: string[];
}

/** FillAsk is a bowl that is being filled. */
export interface FillAsk {
	items: Item[];
	/** tray it is weighed for, "" if none */
	tray?: string;
}

/** FillView says what goes with it, and what it does to today's rations. */
export interface FillView {
	/** g of dry bedding to go with it */
	bedding: number;
	/** in the phone's language */
	beddingName: string;
	/** g of it in one of the household's handfuls, 0 if nobody weighed one */
	handful: number;
	/** half handfuls that come to it, 0 if nobody weighed one */
	halves: number;
	/** where it would go, trays first */
	shares: After[];
}

/** After is a place, what of the bowl goes there, and what its ration becomes. */
export interface After {
	share: Share;
	/** g it takes today; of a tray only */
	ration: number;
	/** g it takes after that */
	left: number;
}

/** FoodAsk is what a person wants to know of the catalogue. */
export interface FoodAsk {
	/** "can they eat this?", in the phone's language */
	typed?: string;
	/** with nothing typed: all of this group */
	group?: string;
}

/** FoodView answers it. */
export interface FoodView {
	/** best first; with nothing asked, what this household uses most */
	found: Food[];
	/** what a house rule is stricter about */
	rules: ScrapView[];
	/** to look through */
	groups: string[];
	/** for what the catalogue lacks */
	classes: ClassView[];
}

/** Food is a scrap with all that the catalogue says of it. */
export interface Food {
	scrap: ScrapView;
	/** where published guides disagree, in the phone's language */
	differ?: string;
	/** who published a verdict on it */
	guides: string[];
}

/** ClassView is the verdict on a kind of food. */
export interface ClassView {
	class: string;
	verdict: string;
}

/** House says that the household is stricter with a scrap than the guides. */
export interface House {
	/** the entry that made the rule */
	rule: string;
	/** verdict of the guides */
	guides: string;
	/** why, in the keeper's words */
	note?: string;
}

/** FreezerView is what lies in the freezer, and what today's rations have room for. */
export interface FreezerView {
	day: string;
	mass: string;
	/** in all */
	grams: number;
	/** what has lain longest first */
	kinds: StockView[];
	/** trays, with what their rations leave after the bowls that wait */
	room: Share[];
	next?: string;
	/** to put in: what this household uses most */
	often: ScrapView[];
	members: Person[];
}

/** StockView is one kind of scrap in the freezer. */
export interface StockView {
	/** with its grams */
	item: ItemView;
	/** since which the oldest of it has lain there */
	day: string;
}

/**
 * ThawView is what of the freezer today's rations have room for after the bowls
 * that wait, the oldest first.
 */
export interface ThawView {
	grams: number;
	items: ItemView[];
	/** trays */
	shares: Share[];
}

/**
 * LabelsView is what the Labels screen prints from, and what a scanned blank
 * label can be put on.
 */
export interface LabelsView {
	bins: LabelBin[];
	/** presets, the default first */
	sheets: Sheet[];
	mass: string;
	temp: string;
	/** Vessels are what amounts on a paper card may be counted in. */
	vessels: VesselView[];
}

/** LabelBin is a bin whose trays carry labels. */
export interface LabelBin {
	id: string;
	name: string;
	/** from the top down */
	trays: LabelTray[];
	/**
	 * Width, Depth and Height are those of its top tray, mm: a new tray of the
	 * same bin is taken to be like it. 0 if it has none.
	 */
	width: number;
	depth: number;
	height: number;
}

/** LabelTray is a tray that carries a label or may get one. */
export interface LabelTray {
	id: string;
	name: string;
	code?: string;
	/** washed and free: nothing is bedded in it */
	empty?: boolean;
}

/**
 * PhotosView says which pictures the household's entries have. The pictures
 * themselves go from phone to phone by way of the server, by their hash.
 */
export interface PhotosView {
	/** newest first */
	photos: PhotoLine[];
	/** hashes of removed ones that no entry names any more */
	gone: string[];
}

/** PhotoLine is one picture of an entry. */
export interface PhotoLine {
	/** to undo, which removes it for good */
	entity: string;
	/** entry it belongs to */
	of: string;
	/** SHA-256 of its bytes */
	hash: string;
	/** px */
	width: number;
	height: number;
	day: string;
	who?: string;
	guest?: boolean;
}

/**
 * PlanAsk is what a household says of itself before there is a bin. Zero is
 * "nobody said", but for the two temperatures, which count where Room is true.
 */
export interface PlanAsk {
	/** g of scraps a week; 0 to reckon from People */
	week?: number;
	people?: number;
	room?: boolean;
	/** 0.1 °C, mean of the coldest month */
	coolest?: number;
	warmest?: number;
	/** "" for the one that suits best */
	species?: string;
	/** mm, of one tray */
	width?: number;
	depth?: number;
}

/**
 * PlanView is a bin that does not exist yet, or what the record tells of the
 * kitchen and the room (Known) until somebody asks.
 */
export interface PlanView {
	day: string;
	mass: string;
	temp: string;
	known: PlanAsk;
	/** scraps a week beyond which there is no plan */
	mostG: number;
	why?: string;
	made?: Made;
}

/** Made is a plan. Masses in g. */
export interface Made {
	species: string;
	/** the best first */
	suits: PlanSuit[];
	/** a week */
	scraps: Span;
	worms: number;
	/** what set it, a code of package plan */
	wormsBy: string;
	areaCM2: number;
	/** mm, of a tray */
	width: number;
	depth: number;
	/** trays that hold fresh food at a time */
	fed: number;
	/** with those that ripen and one to spare */
	all: number;
	/** side by side */
	stacks: number;
	/** loose bedding */
	bedML: number;
	paper: number;
	/** ml */
	water: number;
	soil: number;
	steps: PlanStep[];
	whole: PlanReach;
	cheaper: PlanOption[];
	caution: string[];
}

/** PlanSuit is a species with what speaks for and against it here. */
export interface PlanSuit {
	species: string;
	/** suits, copes, no */
	fit: string;
	reasons: string[];
	/** 0.1 °C, limits of the bed */
	low: number;
	high: number;
}

/**
 * PlanStep is one thing to do from a day on; without a day no day of the coming
 * year fits.
 */
export interface PlanStep {
	code: string;
	day?: string;
	/** better not after */
	late?: string;
}

/**
 * PlanReach says when a colony eats everything, in days after the worms came.
 * Never is true where that is not within two years; Late where it may not be.
 */
export interface PlanReach {
	days: Span;
	never?: boolean;
	late?: boolean;
	/** per cent of the kitchen's scraps */
	year1: number;
	year2: number;
	/** per cent of the runs that live through two years */
	lives: number;
}

/** PlanOption is a way to spend less. */
export interface PlanOption {
	code: string;
	/** 0 where it is not about worms */
	worms: number;
	whole?: PlanReach;
	/** days later than with the full stock */
	later: number;
	/** scraps a week that it takes, 0 where not asked */
	week: number;
}

/**
 * BedView is what was read of a tray's bedding lately. Parts nobody read are
 * missing.
 */
export interface BedView {
	/** 0.1 °C */
	temp?: number;
	tempDay?: string;
	squeeze?: string;
	squeezeDay?: string;
}

/**
 * Counted is how many cocoons somebody found in the scoops of a tray's last
 * sample.
 */
export interface Counted {
	count: number;
	day: string;
}

/**
 * BaseView is the base under a stack, where somebody drained liquid from it.
 * What stands in it now is reckoned from how much came how fast.
 */
export interface BaseView {
	heightMM: number;
	liquidMM: number;
	liquidML: number;
	/** ml, the last time */
	drained: number;
	/** of the last time */
	day: string;
}

/**
 * TaughtView says what the newest observation of a bin changed, with what else
 * was seen on that visit: the same day worked out with it and without it. Known is false if nobody observed anything
 * lately; the other fields are then empty.
 */
export interface TaughtView {
	known: boolean;
	tray: string;
	/** of the tray */
	name: string;
	mass: string;
	temp: string;
	today: string;
	entity?: string;
	/** "look", "worms" or "sample" */
	kind?: string;
	day?: string;
	who?: string;
	look?: LookLine;
	/** of worms that were weighed */
	grams?: number;
	/** of the tray, g */
	ration: Change;
	/** of the bin, g */
	worms: Change;
	/** soft scraps in the tray, g */
	lying: Change;
	/**
	 * Held says that the tray's feeding stops because of it, Freed that it may go
	 * on again.
	 */
	held?: boolean;
	freed?: boolean;
}

/** Change is a figure before and after an observation. */
export interface Change {
	before: number;
	after: number;
}

/**
 * TimelineAsk says which part of the timeline is asked for. Before and Until are
 * days (2026-11-25); "" is no bound. The other fields narrow it to a bin, a kind
 * of entry and a member's id; the kind "photo" is the entries that have a picture.
 * What has no bin (a bowl, the freezer) is left out
 * once a bin is named.
 */
export interface TimelineAsk {
	/** read on from this day, not included */
	before?: string;
	/** read down to this day, included, however many entries that takes */
	until?: string;
	bin?: string;
	kind?: string;
	who?: string;
}

/**
 * Told is a child's meal that was more than was advised. It was taken as it is;
 * the keepers are told.
 */
export interface Told {
	feed: FeedLine;
	/** of the tray */
	name: string;
	/** g that were advised */
	ration: number;
}

/**
 * TroubleView is what may be wrong in a tray: from signs that a person chose to
 * causes and what to do tonight. Codes are those of package trouble.
 */
export interface TroubleView {
	/** false: the household has no such tray */
	found: boolean;
	tray: string;
	name: string;
	bin: string;
	binName: string;
	day: string;
	mass: string;
	temp: string;
	/** all there are, those that ask for haste first */
	signs: string[];
	/** noted by the looks of the last week: offered ticked */
	seen: string[];
	/** those that the findings stand on */
	chosen: string[];
	findings: FindingView[];
	/** signs that no cause which fits best explains */
	unexplained: string[];
	tonight: StepView[];
	stop: string[];
	cautions: string[];
	urgent?: boolean;
	/** day to look again */
	look?: string;
	/** what to measure to tell causes apart: squeeze, bed-temperature, leftovers */
	check?: string;
	feeding: FeedingView;
	members: Person[];
}

/** FindingView is one cause and how well it fits: best, could or not. */
export interface FindingView {
	cause: string;
	fit: string;
	/** of 1000 */
	likely: number;
	reasons: ClueView[];
}

/** ClueView is one piece of evidence for a cause, or against it. */
export interface ClueView {
	/** sign, absent or log */
	of: string;
	/** the sign, or what of the log */
	code: string;
	band?: string;
	value?: number;
	unit?: string;
	/** speaks for the cause */
	for: boolean;
}

/** StepView is one thing to do tonight; Unit is "" where there is no quantity. */
export interface StepView {
	code: string;
	amount?: number;
	unit?: string;
}

/** FeedingView is what the causes mean for feeding: "hold", "reduce" or "". */
export interface FeedingView {
	kind?: string;
	/** of a usual meal */
	milli: number;
	cause?: string;
}

/** TodayView is the first screen: all bins by urgency and what waits. */
export interface TodayView {
	day: string;
	/** household's name */
	home: string;
	/** "g" or "oz" */
	mass: string;
	/** "C" or "F" */
	temp: string;
	bins: BinView[];
	bowls: Bowl[];
	/** g */
	freezer: number;
	thaw?: ThawView;
	jobs: Job[];
	/** entries that need attention */
	asides: number;
	/** entries that need a newer app */
	unread: number;
	/** who can be said to have fed */
	members: Person[];
	/** children's meals that were more than advised */
	told: Told[];
}

/** Person is a member as the screens name one. */
export interface Person {
	id: string;
	name: string;
	child?: boolean;
}

/** BinView is one bin on Today. */
export interface BinView {
	id: string;
	name: string;
	/** id of the tray that takes food today */
	tray: string;
	/** from the top down */
	stack: TierView[];
	ration: RationView;
	double?: DoubleView;
	base?: BaseView;
}

/** TierView is one tray of a stack, for its drawing and its list. */
export interface TierView {
	id: string;
	name: string;
	code: string;
	stage: string;
	/** days in this stage, first day is 1 */
	stageDay: number;
	widthMM: number;
	heightMM: number;
	beddingMM: number;
	castingsMM: number;
	castingsG: number;
	scraps: Portion[];
	/** g */
	worms: Span;
	/** takes food today */
	takes: boolean;
	bed?: BedView;
	cocoons?: Counted;
}

/** Portion is what is left of one feeding. */
export interface Portion {
	feeding: string;
	day: string;
	spot?: string;
	/** g */
	fed: number;
	/** g, soft part */
	left: number;
}

/** Span is a quantity with its likely range (8 times of 10). */
export interface Span {
	mid: number;
	low: number;
	high: number;
}

/** RationView is what may go in today, and why. */
export interface RationView {
	/** rounded for people */
	grams: number;
	/** g */
	likely: Span;
	/** see the answers of package ration */
	answer: string;
	/** SureWeighed, or as package ration says */
	sure: string;
	reasons: Reason[];
	/** as package ration says: worms, surface, warmth, kitchen and others */
	binds: string;
	/** cheapest next move, a code */
	move?: string;
	/** rule of thumb beside it */
	rule: RuleView;
	promise?: Promise;
	hold?: Hold;
	/** household's vessel nearest to it */
	vessel?: string;
	/** how many of it, in quarters */
	vessels?: number;
	/** g already fed to this bin today */
	feeds: number;
	/** day of the next meal this ration reaches to */
	nextDay: string;
	/** 0.1 °C used */
	bedTemp: number;
	/** a reading, not the season */
	bedSeen: boolean;
	/** dry bedding to go with it */
	beddingG: number;
	/** where it was fed longest ago */
	spot?: string;
	knows: Knows;
	/** by the observations of the last weeks, oldest first */
	moved: Moved[];
}

/** Knows tells which quantities this bin's log, and no longer the guides, sets. */
export interface Knows {
	appetite: boolean;
	surface: boolean;
	breeding: boolean;
}

/** Moved is what one observation changed, in thousandths of its unit. */
export interface Moved {
	/** "worms" (g), "appetite" (g per g and day), "surface" (g per m² and day) */
	code: string;
	entry: string;
	day: string;
	before: number;
	after: number;
}

/**
 * Reason is one row of the ledger under a ration. Rows are read in order: a row
 * with an operator applies to the running value, a row marked Sum states it, and
 * one with the operator "compare" (the rule of thumb, from From to To) changes
 * nothing. The last row is the result. Values are thousandths of Unit, so that the ledger
 * sums exactly, rounding included.
 */
export interface Reason {
	/** what the row is; words in pwa/src/strings */
	code: string;
	/** "", "×", "−", "+", "≤" (cap), "≈" (add the difference that rounding makes), "compare" (passed by) */
	op?: string;
	/** value in thousandths of Unit */
	milli: number;
	/** "g", "per day", "d", "°C" */
	unit: string;
	sum?: boolean;
	/** a day the words may name */
	day?: string;
	/** lower end the words may name, g */
	from?: number;
	/** upper end the words may name, g */
	to?: number;
}

/** RuleView is the rule of thumb for the same worms and days, in g. */
export interface RuleView {
	low: number;
	high: number;
}

/** Promise says when the meal should be gone, and can be wrong. */
export interface Promise {
	day: string;
	/** %, that it is gone by that day */
	chance: number;
	/** span over 8 of 10 */
	first: string;
	last: string;
	/** of past promises */
	kept: number;
	of: number;
}

/** Hold stops feeding here: a cause, a release and an end. */
export interface Hold {
	/** code */
	cause: string;
	/** release, a code */
	until: string;
	/** day by which it ends or changes */
	end: string;
	/** entity that shows it */
	entry?: string;
}

/** DoubleView tells of two feedings of one bin that did not know of each other. */
export interface DoubleView {
	bin: string;
	feedings: FeedLine[];
	grams: number;
}

/** FeedLine is one feeding in a list. */
export interface FeedLine {
	id: string;
	bin: string;
	tray: string;
	day: string;
	at: string;
	grams: number;
	how: string;
	spot?: string;
	items: ItemView[];
	/** name of who fed */
	who: string;
	guest?: boolean;
	/** name of whose phone logged it, if another's */
	logger?: string;
	/** logged on this phone */
	mine?: boolean;
}

/** ItemView is one scrap in a list. */
export interface ItemView {
	scrap: string;
	name: string;
	class?: string;
	grams: number;
	cut?: boolean;
	frozen?: boolean;
}

/** Bowl is a bowl that waits, with the split the advice would make. */
export interface Bowl {
	id: string;
	name: string;
	/** left in it */
	grams: number;
	how: string;
	items: ItemView[];
	who: string;
	at: string;
	split: Share[];
}

/** Share is one part of a bowl's suggested split, from the top down. */
export interface Share {
	/** "tray", "freezer" or "waste" */
	to: string;
	bin?: string;
	tray?: string;
	name?: string;
	grams: number;
}

/** Job is something due. */
export interface Job {
	/** "look", "bed-next", "rest", … */
	kind: string;
	bin: string;
	tray?: string;
	name: string;
	days?: number;
	day?: string;
	/**
	 * What one tap can do about it: the batch to rest, or the tray to bed next
	 * with the bedding that the one below got. Missing where it takes more.
	 */
	batch?: string;
	next?: string;
	nextName?: string;
	items?: ItemView[];
}

/** TrayView is what a scan opens. */
export interface TrayView {
	/** "tray", "removed", "unclaimed" (well-formed, on no tray of ours), "malformed" */
	found: string;
	why?: string;
	/** the label's; of a malformed one what was typed, at most 40 characters */
	code?: string;
	id?: string;
	name?: string;
	bin?: string;
	binName?: string;
	day: string;
	mass: string;
	temp: string;
	tier?: TierView;
	stack: TierView[];
	base?: BaseView;
	ration?: RationView;
	bowls: Bowl[];
	/** newest first, at most 8 */
	feeds: FeedLine[];
	/** the nine places */
	spots: SpotView[];
	double?: DoubleView;
	/** where the rest of a bowl could go */
	other: Share[];
	members: Person[];
	ask?: Ask;
	/** days since the bin's last written meal, if they are suspiciously many */
	gap?: number;
}

/** SpotView is one of the nine places of a tray. */
export interface SpotView {
	spot: string;
	/** fed last */
	day?: string;
	/** g */
	left: number;
	next?: boolean;
}

/** Ask is the one question of a visit; skipping it costs nothing. */
export interface Ask {
	/** "leftovers", "unlogged" */
	kind: string;
	tray: string;
	/** of the meal it asks about */
	day: string;
}

/** WeighView is what the Weigh screen needs before the first key is pressed. */
export interface WeighView {
	mass: string;
	/** the household's usual mix for 100 g */
	usual: ItemView[];
	/** what this household uses most */
	often: ScrapView[];
	/** the whole catalogue */
	scraps: ScrapView[];
	vessels: VesselView[];
	/** for "other" */
	classes: string[];
	members: Person[];
	/** today's, by bin */
	rations: Share[];
	bowls: Bowl[];
	/** of each tray that takes food, and of a bowl for none (tray is "") */
	limits: SlipLimits[];
}

/** ScrapView is one entry of the catalogue. */
export interface ScrapView {
	id: string;
	name: string;
	group: string;
	class: string;
	/** good, little, avoid, never; the house rule's where there is one */
	verdict: string;
	/** codes */
	reasons: string[];
	/** codes */
	prep: string[];
	house?: House;
}

/** VesselView is one of the household's vessels. */
export interface VesselView {
	id: string;
	name: string;
	grams: number;
}

/** TimelineView is everything by day, newest first. */
export interface TimelineView {
	day: string;
	mass: string;
	temp: string;
	days: TimelineDay[];
	/** pass as "before" to read on */
	next?: string;
	/** who can be said to have fed */
	members: Person[];
	/** what the timeline can be narrowed to */
	bins: Place[];
}

/** Place names a bin or a tray. */
export interface Place {
	id: string;
	name: string;
}

/** TimelineDay is one day of the timeline. */
export interface TimelineDay {
	day: string;
	entries: Entry[];
	/** bins fed twice out of sight */
	double?: string[];
}

/** Entry is one thing that happened. */
export interface Entry {
	entity: string;
	kind: string;
	at: string;
	bin?: string;
	tray?: string;
	/** bin and tray names */
	names: string[];
	who?: string;
	/** id of who did it */
	member?: string;
	guest?: boolean;
	logger?: string;
	feed?: FeedLine;
	look?: LookLine;
	/** of a bowl, the freezer, the waste */
	items?: ItemView[];
	sample?: SampleLine;
	/** castings of a harvest, by volume */
	ml?: number;
	/** the same, in tenths of the household's bucket */
	buckets?: number;
	spot?: string;
	note?: string;
	/** the day is only about right */
	about?: boolean;
	grams?: number;
	/** per cent of the colony that was lost */
	share?: number;
	/** what happened to worms or a batch, how it was harvested */
	code?: string;
	/** undone: shown struck, can be brought back */
	gone?: boolean;
	edited?: boolean;
}

/** LookLine is what a look found; what was skipped is missing. */
export interface LookLine {
	leftovers?: string;
	squeeze?: string;
	smell?: string;
	/** 0.1 °C */
	temp?: number;
	/** "bed" or "room" */
	tempOf?: string;
	visitors?: string[];
	/** "on", "dry", "missing" */
	cover?: string;
	/** covered as told, under a hold */
	covered?: boolean;
	/** ml drained */
	liquid?: number;
	/** mm of material */
	fill?: number;
	/** g of the whole tray */
	weight?: number;
	/** 0.1 % moisture, by a meter */
	meter?: number;
	/** 0.1 pH */
	ph?: number;
	/** "yes" or "no": did somebody feed without writing it down? */
	unlogged?: string;
}

/** SampleLine is worms counted in scoops of a bed. */
export interface SampleLine {
	scoops: number;
	/** of one scoop */
	ml: number;
	adults: number;
	young: number;
	cocoons: number;
}

/**
 * SlipLimits say from which amounts on a slip is asked about, so that a key can
 * ask without waiting for an answer.
 */
export interface SlipLimits {
	tray: string;
	/** g; more is asked about */
	ask: number;
	/** g; more is refused */
	refuse: number;
}

/** SlipView answers "may this amount be a slip?" before anything is saved. */
export interface SlipView {
	/** "", "ask" (likely a slip), "refuse" */
	kind: string;
	why?: string;
	grams: number;
	limit: number;
}

/**
 * Sheet is the geometry of one sheet of labels, a grid of equal cells on a page,
 * or of a roll, whose page is one label. Lengths are in micrometres, so that a
 * pitch of 66.675 mm is exact. Every number is meant to be edited: sheets that
 * share a cell count differ by millimetres. Check says whether it can be printed.
 */
export interface Sheet {
	name: string;
	pageW: number;
	pageH: number;
	columns: number;
	rows: number;
	/** corner of the first cell */
	left: number;
	top: number;
	/** from cell to cell */
	pitchX: number;
	pitchY: number;
	cellW: number;
	cellH: number;
	/** kept free of ink inside a cell */
	margin: number;
	/** kept free of ink inside the page; printers do not reach it */
	edge: number;
	/** dots per inch of a thermal printer, whose modules are whole dots; 0: any */
	dpi?: number;
	/** plain paper: lines to cut along */
	cut?: boolean;
}

/**
 * Intent is what a screen asks to be written down. Only the fields that belong
 * to Do are read; the rest stay zero.
 */
export interface Intent {
	do: string;
	/** entry to undo, redo or edit; or the entity to change */
	entity?: string;
	/** instant with offset, RFC 3339; now if empty */
	at?: string;
	/** household's day; today if empty */
	day?: string;
	bin?: string;
	tray?: string;
	spot?: string;
	items?: Item[];
	how?: How;
	vessel?: string;
	/** who did it */
	member?: string;
	/** or a guest's name */
	guest?: string;
	bowl?: string;
	/** place */
	shares?: JournalShare[];
	note?: string;
	/** the person confirmed a likely slip */
	sure?: boolean;
	/** "it is already in the bin": never refused */
	inBin?: boolean;
	leftovers?: Leftovers;
	squeeze?: string;
	/** 0.1 °C */
	temp?: number;
	tempOf?: string;
	smell?: string;
	visitors?: string[];
	cover?: string;
	covered?: boolean;
	/** ml drained, 0 is an answer too */
	liquid?: number;
	/** mm */
	fill?: number;
	/** g, tray and all */
	weight?: number;
	/** 0.1 % */
	meter?: number;
	/** 0.1 */
	ph?: number;
	signs?: string[];
	/** yes or no */
	unlogged?: string;
	/** feed: the day is only about right */
	about?: boolean;
	/** sample */
	scoops?: number;
	/** sample: of one scoop; harvest: castings */
	ml?: number;
	adults?: number;
	young?: number;
	cocoons?: number;
	/** harvest; the tray's open one if empty */
	batch?: string;
	method?: HarvestMethod;
	/** castings */
	grams?: number;
	/** tenths */
	buckets?: number;
	/** g put back */
	worms?: number;
	/** photo: entity it belongs to */
	of?: string;
	/** SHA-256, 64 hexadecimal digits */
	hash?: string;
	/** media type */
	type?: string;
	width?: number;
	height?: number;
	bytes?: number;
	/** rule */
	scrap?: string;
	verdict?: RuleVerdict;
	/** fields of kinds.go, for edit and for the keeper's entities */
	set?: Record<string, unknown>;
}

/** Item is one kind of scrap (or bedding) in an amount. */
export interface Item {
	/** catalogue id, or "other" */
	scrap: string;
	/** food class, for "other" */
	class?: string;
	/** what people called it, for "other" */
	name?: string;
	g: number;
	/** chopped */
	cut?: boolean;
	/** frozen and thawed */
	frozen?: boolean;
}

/** Species is a kind of composting worm. */
export type Species = "eisenia-fetida" | "dendrobaena-hortensis" | "eudrilus-eugeniae" | "perionyx-excavatus" | "not-sure";

/** Goal is what the household wants of its colony. */
export type Goal = "grow" | "hold" | "slow-down";

/** Stage is where a batch stands in its life. */
export type Stage = "bedded" | "feeding" | "resting" | "ready" | "emptied";

/** WormMove is how worms came or went. */
export type WormMove = "added" | "removed" | "weighed" | "lost";

/** How says how an amount was found, which is also how far it can be trusted. */
export type How = "scale" | "vessel" | "unweighed" | "as-advised";

/** Leftovers is what a look found of the last meals. */
export type Leftovers = "none" | "hard" | "some" | "half" | "most";

/** Event is one thing that happened. */
export interface Event {
	kind: string;
	/** phone's clock, ms */
	now: number;
	/** 0 ≤ rand < 1, new for every event */
	rand: number;
	/** of the Effect that this answers */
	seq?: number;
	/** HTTP status */
	status?: number;
	/** body of the answer */
	body?: string;
	/** its media type is application/json or ends in +json */
	json?: boolean;
	/** seconds, 0 if the answer names none */
	retryAfter?: number;
	/** loaded: bytes of the operations found, any order */
	ops?: string[];
	reason?: string;
}

/** Effect is one thing to do. Effects of one step are done in order. */
export interface Effect {
	kind: string;
	/** to be named in the event that follows */
	seq?: number;
	path?: string;
	body?: string;
	ids?: string[];
	store?: Store;
	ms?: number;
	status?: Status;
	reason?: string;
}

/**
 * Store is what an exchange taught, to be written in one transaction. Nothing
 * of it counts before the stored event.
 */
export interface Store {
	/** new operations, bytes verbatim; known to be on the server */
	ops?: string[];
	/** held here, now known to be on the server */
	known?: string[];
	/** held here, believed to be on the server and not there: share again */
	unknown?: string[];
	/** to the drawer "not accepted" */
	refused?: Result[];
	/** new signed roster texts */
	roster?: string[];
	hint: Hint;
	/** newest household time seen, ms */
	floor: number;
	/** phone's time of the answer with which all was heard, ms; 0 if never */
	heard: number;
}

/** Status is what the sync line shows. */
export interface Status {
	/** operations not known to be on the server */
	waiting: number;
	/** phone's time of the answer with which all was heard, ms; 0 if never */
	heard: number;
	/** operations that came in since, with more to come; 0 when all is here */
	fetched: number;
	state: string;
	detail?: string;
}

/**
 * Hint is how far into a log's order of arrival somebody has read. It makes an
 * exchange fast and is never relied on.
 */
export interface Hint {
	/** the log's instance; new whenever arrival numbers start again */
	inst: string;
	/** arrival number of the last operation read; 0 is before the first */
	n: number;
}

/** Request is the body of POST PathExchange. */
export interface Request {
	after: Hint;
	/** the operations' bytes, verbatim */
	ops: string[];
	/** what the asker believes the other side holds */
	root: { n: number; s: string };
	/** signed roster texts that the other side may lack */
	roster?: string[];
	rosterRoot: { n: number; s: string };
}

/** Answer is the answer to a Request. */
export interface Answer {
	/** one per operation of the request, in its order */
	results: Result[];
	/** what arrived after the hint, without the request's own */
	ops: string[];
	next: Hint;
	/** ask again with Next before comparing roots */
	more?: boolean;
	/** of the snapshot that Ops and Next were read from */
	root: { n: number; s: string };
	/** answering side's clock, ms */
	now: number;
	/** all signed roster texts; null when the roots agree */
	roster: string[];
}

/** Result says what became of one operation. */
export interface Result {
	id: string;
	code: string;
	why?: string;
}

/** Query is the body of POST PathReconcile. Exactly one question is asked. */
export interface Query {
	months?: boolean;
	days?: string[];
	parts?: number[];
	ids?: Scope[];
	/** with IDs: where the page before ended */
	cursor?: string;
	want?: string[];
}

/** Scope names a day or one part of it. */
export interface Scope {
	day: number;
	/** first byte of the ids, or digest.WholeDay */
	part: number;
}

/** Reply is the answer to a Query. */
export interface Reply {
	months?: MonthSum[];
	days?: DaySum[];
	parts?: PartSum[];
	ids?: string[];
	/** not empty: ask again with it */
	cursor?: string;
	/** of those wanted; ask again for the rest */
	ops?: string[];
	root: { n: number; s: string };
	now: number;
}

/**
 * HouseholdView is who belongs to the household, with which phones, and which
 * entries need attention.
 */
export interface HouseholdView {
	id: string;
	/** its name, "" until somebody named it */
	home: string;
	zone: string;
	mass: string;
	temp: string;
	/** member whose phone this is */
	me: string;
	/** of this phone, "" before joining */
	role: string;
	members: MemberView[];
	devices: DeviceView[];
	/** entries with a field that was set aside */
	asides: AsideView[];
	/** entries that need a newer app */
	unread: number;
}

/** MemberView is one person. */
export interface MemberView {
	id: string;
	name: string;
	child: boolean;
	/** strongest of the phones that are in, "" without one */
	role: string;
	/** that are in */
	phones: number;
}

/** DeviceView is one phone, or the server's console (which has no member). */
export interface DeviceView {
	id: string;
	name: string;
	member: string;
	/** member's name */
	who: string;
	role: string;
	mine: boolean;
	/** "", "lost", "left", "removed" or "adrift" */
	gone: string;
}

/** AsideView is one field that was set aside. */
export interface AsideView {
	entity: string;
	field: string;
	why: string;
}

/** SignView is a roster operation's text for the phone's key to sign. */
export interface SignView {
	text: string;
}

/** Share is one part of a bowl on its way. */
export interface JournalShare {
	/** one of the above */
	to: string;
	tray?: string;
	spot?: string;
	grams: number;
}

/** HarvestMethod is how castings and worms were parted. */
export type HarvestMethod = "climb" | "light" | "side" | "dig";

/** RuleVerdict is how a household's own rule judges a scrap. */
export type RuleVerdict = "little" | "avoid" | "never";

/** MonthSum is a month with the sum of its members. */
export interface MonthSum {
	/** "2026-11" */
	month: string;
	sum: { n: number; s: string };
}

/** DaySum is a day with the sum of its members. */
export interface DaySum {
	/** UTC days since 1970 */
	day: number;
	sum: { n: number; s: string };
}

/** PartSum is a part of a day with the sum of its members. */
export interface PartSum {
	/** UTC days since 1970 */
	day: number;
	/** first byte of the members' ids */
	part: number;
	sum: { n: number; s: string };
}
