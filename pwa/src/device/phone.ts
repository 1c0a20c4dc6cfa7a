// The phone behind the screens: one object that has the storage, the engine and
// the way to the household, and that says how all of them are.

import type { App, Recorded, ScreenName, Shown, ViewArgs, Views } from "../app-api.ts";
import { forgetGlances, keepGlance, type Words } from "../glance.ts";
import type { HouseholdView, Intent, PhotosView } from "../types.gen.ts";
import type { SyncStatus } from "./border.ts";
import { Clock, dayIn, instant } from "./clock.ts";
import { Drafts } from "./drafts.ts";
import { Engine, type WorkerLike } from "./engine.ts";
import { Auth, deviceKey } from "./keys.ts";
import type { Meta, RefusedRow } from "./layout.ts";
import { Link } from "./link.ts";
import { Log } from "./log.ts";
import { type Answer, Net, type NetWorld } from "./net.ts";
import { paced } from "./pace.ts";
import { type Photos, phonePhotos } from "./photos.ts";
import { Removing, type Why } from "./removing.ts";
import { Store, StoreFault } from "./store.ts";
import type { TabWorld } from "./tabs.ts";

/** How the phone is, for the shell. */
export interface PhoneState {
	/** "new" has joined no household yet. */
	phase: "starting" | "new" | "joined";
	storage: "fine" | "blocked" | "outdated" | "locked" | "broken";
	engine: "starting" | "ready" | "broken";
	sync: SyncStatus;
	/** Entries of this phone that the server has not said to hold. */
	waiting: number;
	/** Pictures that are on this phone only. */
	pictures: number;
	/** Entries in the drawer "not accepted". */
	refused: number;
	/** How far the phone's clock is ahead (+) or behind (−), ms; 0 when right. */
	clockOff: number;
	/** A draft could not be kept. */
	draftFault: boolean;
	/** Why this phone was emptied, "" if it wasn't. */
	wiped: string;
	/** Entries that were kept then, for an export. */
	kept: number;
}

export interface PhoneWorld {
	makeWorker(): WorkerLike;
	engineName: string;
	net: NetWorld;
	tabs: TabWorld;
	/** Asks the browser to keep the storage when space is short. */
	persist(): Promise<boolean>;
	reload(): void;
}

// A checkpoint is made when nothing has happened for a while (our choice).
const IDLE_MS = 4_000;

// A first pull brings years in many batches. Asking for every view after each of
// them took a third of its time (our choice).
const HEARD_MS = 1_000;

export class Phone implements Omit<App, "go" | "say"> {
	#world: PhoneWorld;
	#engine: Engine;
	#clock = new Clock();
	#store: Store | undefined;
	#log: Log | undefined;
	#link: Link | undefined;
	#drafts: Drafts | undefined;
	#meta: Partial<Meta> = {};
	#watchers = new Set<() => void>();
	#opened: () => void = () => {};
	#open = new Promise<void>((resolve) => {
		this.#opened = resolve;
	});
	#idle: ReturnType<typeof setTimeout> | undefined;
	readonly net: Net;
	readonly photos: Photos;
	readonly #auth: Auth;
	readonly #removing: Removing;
	#stateWatchers = new Set<() => void>();
	state: PhoneState = {
		phase: "starting",
		storage: "fine",
		engine: "starting",
		sync: { waiting: 0, heard: 0, fetched: 0, state: "idle" },
		waiting: 0,
		pictures: 0,
		refused: 0,
		clockOff: 0,
		draftFault: false,
		wiped: "",
		kept: 0,
	};

	constructor(world: PhoneWorld) {
		this.#world = world;
		// The engine loads while the storage opens.
		this.#engine = new Engine(world.makeWorker);
		this.#engine.onDied = (_why, gaveUp) => void this.#revive(gaveUp);
		this.net = new Net(world.net);
		this.#auth = new Auth(
			this.net,
			() => deviceKey(this.#parts().store),
			() => this.#meta.household ?? "",
			() => this.#parts().store.roster(),
		);
		this.#removing = new Removing({
			key: () => deviceKey(this.#parts().store),
			signText: async (arg) => ((await this.ask("sign", arg)) as { text: string }).text,
			believe: (texts) => this.#parts().log.believe(texts),
			post: (path, body) => this.post(path, body),
		});
		this.photos = phonePhotos({
			fetch: world.net.fetch,
			online: world.net.online,
			token: () => this.token(),
			forgetToken: () => this.#auth.forget(),
			view: async () => (await this.ask("photos", "")) as PhotosView,
			role: () => this.me().role,
		});
		this.photos.onChange(() => void this.#countPictures());
		this.net.onTime = (server, asked, heard) => {
			this.#clock.learn(server, asked, heard);
			this.#setClock();
		};
	}

	/** Opens the storage, and the household's log if this phone has joined one. */
	async start(): Promise<void> {
		try {
			this.#store = await Store.open({
				blocked: () => this.#set({ storage: "blocked" }),
				outdated: () => this.#set({ storage: "outdated" }),
			});
		} catch {
			this.#set({ storage: "broken" });
			return;
		}
		const store = this.#store;
		this.#set({ storage: store.locked ? "locked" : "fine" });
		this.#drafts = new Drafts(store);
		this.#drafts.onFault = () => this.#set({ draftFault: true });
		this.#meta = await store.meta();
		this.#log = new Log(store, this.#engine, {
			engineName: this.#world.engineName,
			now: () => this.now(),
			day: (ms) => this.day(ms),
			instant: () => instant(this.now()),
			changed: () => this.#changed(),
		});
		const wiped = this.#meta.wiped ?? "";
		this.#set({ wiped, kept: wiped ? await store.held() : 0 });
		if (this.#meta.household) await this.#begin();
		else {
			forgetGlances(); // another tab may have kept one while this phone was emptied
			this.#set({ phase: "new" });
		}
	}

	/** Opens the household's log once the phone has joined. */
	async begin(): Promise<void> {
		this.#meta = await this.#parts().store.meta();
		await this.#begin();
	}

	async #begin(): Promise<void> {
		const { store, log } = this.#parts();
		this.#setClock();
		const heard = this.#meta.heard ?? 0;
		this.#set({ phase: "joined", sync: { ...this.state.sync, heard }, wiped: "", kept: 0 });
		// Screens may ask as soon as the engine has been asked to open.
		const opening = log.open();
		this.#opened();
		await this.#count();
		try {
			await opening;
		} catch {
			return; // The engine died; #revive opens it again or says that it can't.
		}
		await this.#engineReady();
		if (!store.locked) this.#connect();
		window.addEventListener("online", () => this.photos.online());
	}

	#connect(): void {
		const { store, log } = this.#parts();
		this.#link ??= new Link({
			store,
			log,
			net: this.net,
			tabs: this.#world.tabs,
			auth: this.#auth,
			status: (sync) => this.#set({ sync }),
			counts: () => void this.#count(),
			changed: paced(() => void this.#heard(), HEARD_MS),
			wiped: () => this.#world.reload(),
			emptying: () => this.#emptyAside(),
		});
		this.#link.start();
		// What another tab saved between opening and listening.
		void log.catchUp().catch(() => {});
	}

	async view<S extends ScreenName>(screen: S, args: ViewArgs = {}): Promise<Shown<Views[S]>> {
		await this.#open;
		const shown = await this.#parts().log.view(screen, args);
		this.#rest(); // what the engine worked out for it may be worth keeping
		return shown;
	}

	async record(intent: Intent): Promise<Recorded> {
		await this.#open;
		const { log } = this.#parts();
		const recorded = await log.record(intent);
		if (recorded.ok) void this.#afterSave();
		return recorded;
	}

	async #afterSave(): Promise<void> {
		const { log, store } = this.#parts();
		await this.#count();
		// The entry is safe; if the engine dies over it, #revive reads it again.
		await log.catchUp().then(
			() => this.#heard(),
			() => {},
		);
		this.#link?.saved();
		if (!this.#meta.persisted) {
			this.#meta.persisted = await this.#world.persist();
			await store.setMeta({ persisted: this.#meta.persisted });
		}
	}

	onChange(run: () => void): () => void {
		this.#watchers.add(run);
		return () => this.#watchers.delete(run);
	}

	/** Calls `run` whenever `state` has changed; returns the unsubscriber. */
	watch(run: () => void): () => void {
		this.#stateWatchers.add(run);
		return () => this.#stateWatchers.delete(run);
	}

	async draft(key: string): Promise<unknown> {
		return this.#drafts?.get(key);
	}

	keepDraft(key: string, value: unknown): void {
		this.#drafts?.keep(key, value);
	}

	async dropDraft(key: string): Promise<void> {
		await this.#drafts?.drop(key);
	}

	/** Resolves when every draft is written: before a reload. */
	async settled(): Promise<void> {
		await this.#drafts?.settled();
	}

	keepGlance(arg: string, words: Words | undefined): void {
		if (this.#store?.locked) return;
		const { zone = "" } = this.#meta;
		keepGlance(arg, words && { ...words, at: this.now(), zone });
	}

	now(): number {
		return this.#clock.now();
	}

	day(ms = this.now()): string {
		return dayIn(this.#meta.zone ?? "", ms);
	}

	heard(): number {
		return this.state.sync.heard;
	}

	me(): { member: string; role: Meta["role"]; device: string } {
		const { member = "", role = "", device = "" } = this.#meta;
		return { member, role, device };
	}

	meta(): Readonly<Partial<Meta>> {
		return this.#meta;
	}

	/** Asks for an exchange now. */
	tap(): void {
		this.#link?.tap();
	}

	/** The storage, for joining, the drawer and the export. */
	get store(): Store {
		return this.#parts().store;
	}

	/** A token for a request of a screen; throws as Auth does. */
	token(): Promise<string> {
		return this.#auth.token();
	}

	/** Posts for a screen, once more with a new token if the old one was over. */
	async post(path: string, body: unknown): Promise<Answer> {
		const answer = await this.net.post(path, body, await this.token());
		if (answer.status !== 401) return answer;
		this.#auth.forget(); // fifteen minutes were over, or the server began anew
		return this.net.post(path, body, await this.token());
	}

	/** A view outside the screens' list, such as "sign". */
	ask(screen: string, arg: string): Promise<unknown> {
		return this.#parts().log.ask(screen, { arg });
	}

	refusedEntries(): Promise<RefusedRow[]> {
		return this.#parts().store.refused();
	}

	async discardRefused(id: string): Promise<void> {
		await this.#parts().store.discardRefused(id);
		await this.#count();
	}

	/** Removes another phone from the household. */
	async remove(device: string, why: Why): Promise<void> {
		await this.#removing.remove(device, why);
		this.#changed();
		this.#link?.saved();
	}

	/** Tells the household that this phone leaves, and empties it. `untold` leaves
	 * without a word. Rejects, with nothing lost, if the server does not hear it. */
	async leave(untold = false): Promise<void> {
		if (this.#link) this.#link.leaving = true;
		try {
			if (!untold) await this.#removing.farewell();
			await this.#empty("left");
		} catch (why) {
			if (this.#link) this.#link.leaving = false;
			throw why;
		}
	}

	/** Gives up the entries that were kept when this phone was emptied. */
	forgetKept(): Promise<void> {
		return this.#empty(this.state.wiped);
	}

	async #empty(reason: string): Promise<void> {
		if (this.#link) return this.#link.wipe(reason, false); // and every tab reloads
		await this.#emptyAside();
		await this.#parts().store.wipe(reason, false);
		this.#world.reload();
	}

	/** Empties what this phone keeps beside the log. */
	async #emptyAside(): Promise<void> {
		forgetGlances();
		await this.photos.wipe();
	}

	async #heard(): Promise<void> {
		this.#changed();
		await this.#count();
		await this.#learnHousehold().catch(() => {});
	}

	/** What the household says of itself and of this phone. */
	async #learnHousehold(): Promise<void> {
		const { store, log } = this.#parts();
		const view = (await log.ask("household")) as HouseholdView;
		const zone = view.zone || (this.#meta.zone ?? "");
		const role = (view.role as Meta["role"]) || this.#meta.role || "";
		if (zone === this.#meta.zone && role === this.#meta.role) return;
		Object.assign(this.#meta, { zone, role });
		if (!store.locked) await store.setMeta({ zone, role });
		this.#changed();
	}

	async #engineReady(): Promise<void> {
		this.#set({ engine: "ready" });
		void this.#countPictures();
		await this.#learnHousehold().catch(() => {});
		this.#changed();
	}

	async #revive(gaveUp: boolean): Promise<void> {
		this.#link?.died();
		this.#set({ engine: gaveUp ? "broken" : "starting" });
		if (gaveUp || !this.#log || this.state.phase !== "joined") return;
		try {
			await this.#log.open();
		} catch {
			return; // It died again, and this is called again.
		}
		await this.#engineReady();
		if (this.#link) this.#link.reopened();
		else if (!this.#store?.locked) this.#connect();
	}

	async #count(): Promise<void> {
		const { store } = this.#parts();
		const [waiting, refused] = await Promise.all([store.waiting(), store.refused()]);
		this.#set({ waiting, refused: refused.length });
	}

	/** The storage of pictures is opened only once there is nothing more urgent. */
	async #countPictures(): Promise<void> {
		const pictures = await this.photos.onlyHere().catch(() => undefined);
		if (pictures && pictures.size !== this.state.pictures) this.#set({ pictures: pictures.size });
	}

	#changed(): void {
		for (const run of [...this.#watchers]) run();
		if (this.state.engine === "ready") this.photos.nudge();
		this.#rest();
	}

	#rest(): void {
		clearTimeout(this.#idle);
		this.#idle = setTimeout(() => {
			void this.#log?.checkpoint(Math.random(), Date.now()).catch(() => {});
		}, IDLE_MS);
	}

	#setClock(): void {
		const clockOff = this.#clock.wrong(this.#meta.floor ?? 0);
		if (clockOff !== this.state.clockOff) this.#set({ clockOff });
	}

	#parts(): { store: Store; log: Log } {
		if (!this.#store || !this.#log) throw new StoreFault("broken", "the storage is not open");
		return { store: this.#store, log: this.#log };
	}

	#set(part: Partial<PhoneState>): void {
		this.state = { ...this.state, ...part };
		for (const run of [...this.#stateWatchers]) run();
	}
}
