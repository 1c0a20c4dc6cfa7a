// What a screen may ask of the app. A screen is a Lit element with two
// properties, `app: App` and `args: ScreenArgs`; it renders what `app.view`
// gives, asks again whenever `app.onChange` says so, and hands what a person
// does to `app.record`. It never touches storage, the engine or the network.
//
//   <today-screen>  /            <weigh-screen>     /weigh
//   <tray-screen>   /t/CODE      <timeline-screen>  /timeline
//   <join-screen>   /join        <household-screen> /household

import type { Taken } from "./device/photos.ts";
import type { Words } from "./glance.ts";
import type {
	BatchView,
	BinSheet,
	CardView,
	CatchUpView,
	FillView,
	FoodView,
	FreezerView,
	HouseholdView,
	Intent,
	LabelsView,
	PhotosView,
	PlanView,
	SlipView,
	TaughtView,
	TimelineView,
	TodayView,
	TrayView,
	TroubleView,
	WeighView,
} from "./types.gen.ts";

/** The view each screen name gives. */
export interface Views {
	today: TodayView;
	tray: TrayView; // arg: label code as typed, or a tray's id
	weigh: WeighView;
	filling: FillView; // arg: FillAsk as JSON
	food: FoodView; // arg: FoodAsk as JSON
	timeline: TimelineView; // arg: TimelineAsk as JSON; before: TimelineView.next
	trouble: TroubleView; // arg: a tray's id and the signs seen, commas between
	batch: BatchView; // arg: a tray's id
	taught: TaughtView; // arg: a tray's id
	catchup: CatchUpView;
	household: HouseholdView;
	bin: BinSheet; // arg: a bin's id, or "" for what a new one needs
	plan: PlanView; // arg: PlanAsk as JSON, or none
	labels: LabelsView;
	card: CardView;
	freezer: FreezerView;
	photos: PhotosView; // arg: an entry, or "" for all
}

export type ScreenName = keyof Views;

export interface ViewArgs {
	arg?: string;
	before?: string;
}

/** A view and how old it is: `from` is null for a live one, else the instant
 * (ms) it was worked out, because the engine is still starting. */
export interface Shown<T> {
	data: T;
	from: number | null;
}

/** Why an entry was not saved. Nothing that was typed may be cleared. */
export type RecordFault =
	| { kind: "slip"; slip: SlipView } // ask; save again with intent.sure or intent.inBin
	| { kind: "refused"; code: string; field: string; detail: string }
	| { kind: "full" } // the phone's storage is full
	| { kind: "locked" } // an older app over newer storage: read only
	| { kind: "broken"; detail: string }; // storage or engine failed

/** `ok` means durable on this phone: only then may a screen say "saved". */
export type Recorded =
	| { ok: true; entity: string; entities?: string[] } // every entry written, where it is more than one
	| { ok: false; fault: RecordFault };

/** What the address gave the screen. */
export interface ScreenArgs {
	arg: string; // CODE of /t/CODE, else ""
	query: URLSearchParams;
}

export interface PhotoAlbum {
	/** Takes a picture in; durable on this phone when it resolves. Rejects for what
	 * is no picture, and when the storage is full. */
	take(file: Blob): Promise<Taken>;
	/** An address that shows a picture, undefined if it can't be had now. */
	url(hash: string): Promise<string | undefined>;
	/** Pictures that are on this phone only: by hash, why the server refuses one, or
	 * "" if it simply waits. */
	onlyHere(): Promise<Map<string, string>>;
	/** Calls `run` whenever a picture came, went or was shared; returns the unsubscriber. */
	onChange(run: () => void): () => void;
}

export interface App {
	/** The screen's view; a remembered one at once while the engine starts.
	 * Rejects only when there is neither. */
	view<S extends ScreenName>(screen: S, args?: ViewArgs): Promise<Shown<Views[S]>>;

	/** Writes an entry. `at` and `day` are filled in when left out. */
	record(intent: Intent): Promise<Recorded>;

	/** Opens a path of the app, e.g. `/t/ABCD-2345` or `/weigh?tray=…`. */
	go(path: string): void;

	/** Calls `run` whenever a view may have changed; returns the unsubscriber. */
	onChange(run: () => void): () => void;

	/** Speaks a sentence in the polite live region, e.g. "Saved". */
	say(sentence: string): void;

	/** Half-typed forms, kept across updates, reloads and crashes. The value is
	 * anything structured clone takes. Save on every input event. */
	draft(key: string): Promise<unknown>;
	keepDraft(key: string, value: unknown): void;
	dropDraft(key: string): Promise<void>;

	/** Keeps what the next scan of a tray shows before the app stands (glance.ts),
	 * or forgets it. */
	keepGlance(arg: string, words: Words | undefined): void;

	/** Now in ms, set right by the server's clock where this session knows it. */
	now(): number;

	/** The household's day of now (or of the given ms), e.g. "2026-11-25". */
	day(ms?: number): string;

	/** When all that the household wrote was last heard, in ms; 0 if never. */
	heard(): number;

	/** Pictures, apart from the entries that name them. */
	readonly photos: PhotoAlbum;

	/** This phone's member and role; member is "" before joining. */
	me(): { member: string; role: "" | "keeper" | "feeder" | "viewer"; device: string };
}
