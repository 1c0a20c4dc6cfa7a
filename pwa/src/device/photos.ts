// Pictures on this phone: taken in, shown, shared and let go. An entry that names
// a picture never waits for it, and sharing pictures never holds up entries.
//
// Who deletes: every phone that may write asks the server to delete what the
// record says is gone, so no picture outlives its entry, whichever phone removed
// it and whichever sent it late.

import { hashOf, type Outcome, PhotoNet } from "./photo-net.ts";
import { type Away, lacks, type Named, planAway, planHome } from "./photo-plan.ts";
import { type PhotoRow, PhotoStore } from "./photo-store.ts";
import { type Picture, pictureOf } from "./picture.ts";

/** A picture that was taken in, as an entry names it. */
export interface Taken {
	hash: string;
	width: number;
	height: number;
	bytes: number;
}

export interface PhotosWorld {
	net: Pick<PhotoNet, "list" | "get" | "put" | "remove">;
	store: {
		put(row: PhotoRow, bytes: ArrayBuffer): Promise<void>;
		rows(): Promise<PhotoRow[]>;
		bytes(hash: string): Promise<ArrayBuffer | undefined>;
		mark(hash: string, said: Partial<Pick<PhotoRow, "shared" | "refused">>): Promise<void>;
		drop(hash: string): Promise<void>;
		wipe(): Promise<void>;
	};
	pictureOf(file: Blob): Promise<Picture>;
	named(): Promise<Named>;
	mayWrite(): boolean;
	online(): boolean;
	now(): number;
	rand(): number;
	setTimer(run: () => void, ms: number): unknown;
	clearTimer(timer: unknown): void;
	/** Runs the work unless another tab is at it; false then. */
	alone(work: () => Promise<void>): Promise<boolean>;
}

// The waits between tries grow from the first to the last (our choice).
const FIRST_MS = 5_000;
const LAST_MS = 5 * 60_000;

export class Photos {
	readonly #world: PhotosWorld;
	#urls = new Map<string, string>();
	#watchers = new Set<() => void>();
	/** Gone ones that the server is known not to keep. */
	#seen = new Set<string>();
	#asked = false; // the server was asked since the start
	#full = false; // there is no room for others' pictures
	#running = false;
	#again = false;
	#failures = 0;
	#timer: unknown;

	constructor(world: PhotosWorld) {
		this.#world = world;
	}

	/** Pictures that are on this phone only: by hash, why the server refuses one, or
	 * "" if it simply waits. */
	async onlyHere(): Promise<Map<string, string>> {
		const rows = await this.#world.store.rows();
		return new Map(rows.filter((row) => !row.shared).map((row) => [row.hash, row.refused]));
	}

	/** Calls `run` whenever a picture came, went or was shared; returns the unsubscriber. */
	onChange(run: () => void): () => void {
		this.#watchers.add(run);
		return () => this.#watchers.delete(run);
	}

	#changed(): void {
		for (const run of [...this.#watchers]) run();
	}

	/** Takes a picture in: durable on this phone when it resolves. Rejects for what
	 * is no picture, and when the storage is full. */
	async take(file: Blob): Promise<Taken> {
		const world = this.#world;
		const { bytes, width, height } = await world.pictureOf(file);
		const hash = await hashOf(bytes);
		await world.store.put({ hash, at: world.now(), shared: 0, refused: "" }, bytes.buffer);
		this.#changed();
		return { hash, width, height, bytes: bytes.length };
	}

	/** An address that shows the picture, fetched if it is not here; undefined when
	 * it can't be had now. It is good until the picture is removed. */
	async url(hash: string): Promise<string | undefined> {
		const held = this.#urls.get(hash);
		if (held) return held;
		const bytes = (await this.#world.store.bytes(hash)) ?? (await this.#fetch(hash));
		if (!bytes) return undefined;
		const url =
			this.#urls.get(hash) ?? URL.createObjectURL(new Blob([bytes], { type: "image/jpeg" }));
		this.#urls.set(hash, url);
		return url;
	}

	async #fetch(hash: string): Promise<ArrayBuffer | undefined> {
		if (!this.#world.online()) return undefined;
		const got = await this.#world.net.get(hash);
		if (got.kind !== "done") return undefined;
		await this.#keep(hash, got.value);
		return got.value;
	}

	/** A full phone goes on without copies of others' pictures. */
	async #keep(hash: string, bytes: ArrayBuffer): Promise<void> {
		const row = { hash, at: this.#world.now(), shared: 1, refused: "" } as const;
		await this.#world.store.put(row, bytes).catch(() => {
			this.#full = true;
		});
	}

	/** Something may be to do: an entry came or went, or there is a connection. */
	nudge(): void {
		if (this.#running) {
			this.#again = true;
			return;
		}
		this.#running = true;
		this.#world.clearTimer(this.#timer);
		void this.#turns().finally(() => {
			this.#running = false;
		});
	}

	/** There is a connection again: no need to wait any longer. */
	online(): void {
		this.#failures = 0;
		this.nudge();
	}

	async #turns(): Promise<void> {
		let wait: number | undefined;
		do {
			this.#again = false;
			wait = await this.#turn().catch(() => 0);
		} while (this.#again && wait === undefined);
		if (wait !== undefined) this.#later(wait);
		else this.#failures = 0;
	}

	#later(atLeast: number): void {
		const most = Math.min(LAST_MS, FIRST_MS * 2 ** this.#failures++);
		const ms = Math.max(atLeast, (0.5 + this.#world.rand() / 2) * most);
		this.#timer = this.#world.setTimer(() => this.nudge(), ms);
	}

	/** One look at what is to do. Gives how long to wait at least, ms, if something
	 * is left. */
	async #turn(): Promise<number | undefined> {
		let wait: number | undefined;
		const mine = await this.#world.alone(async () => {
			const named = await this.#world.named();
			const kept = await this.#world.store.rows();
			const { drop, ask } = planHome(named, kept, this.#seen, this.#world.now());
			for (const hash of drop) await this.#drop(hash);
			if ((!ask && this.#asked) || !this.#world.online()) return;
			wait = await this.#exchange(named);
		});
		return mine ? wait : 0;
	}

	async #drop(hash: string): Promise<void> {
		await this.#world.store.drop(hash);
		const url = this.#urls.get(hash);
		this.#urls.delete(hash);
		if (url) URL.revokeObjectURL(url);
		this.#changed();
	}

	async #exchange(named: Named): Promise<number | undefined> {
		const { net, store } = this.#world;
		const list = await net.list();
		if (list.kind !== "done") return waitOf(list);
		this.#asked = true;
		const kept = await store.rows();
		const plan = planAway(named, kept, list.value, this.#world.mayWrite());
		for (const hash of plan.shared) await store.mark(hash, { shared: 1 });
		if (plan.shared.length > 0) this.#changed();
		const wait = await this.#carryOut(plan);
		if (wait !== undefined) return wait;
		for (const hash of named.gone) this.#seen.add(hash);
		// What others have taken and not sent yet is asked for again, ever less often.
		const here = new Set((await store.rows()).map((row) => row.hash));
		return !this.#full && lacks(named, here) ? 0 : undefined;
	}

	/** Removes first: that is what nobody may wait for. */
	async #carryOut(plan: Away): Promise<number | undefined> {
		const { net, store } = this.#world;
		for (const hash of plan.remove) {
			const done = await net.remove(hash);
			if (done.kind === "later") return waitOf(done);
		}
		for (const hash of plan.put) {
			const bytes = await store.bytes(hash);
			if (!bytes) continue;
			const done = await net.put(hash, bytes);
			if (done.kind === "later") return waitOf(done);
			if (done.kind === "refused") await store.mark(hash, { refused: done.code });
			if (done.kind === "done") await store.mark(hash, { shared: 1 });
			this.#changed();
		}
		for (const hash of plan.fetch) {
			if (this.#full) break;
			const got = await net.get(hash);
			if (got.kind === "later") return waitOf(got);
			if (got.kind !== "done") continue;
			await this.#keep(hash, got.value);
			this.#changed();
		}
		return undefined;
	}

	/** Empties this phone of pictures. */
	async wipe(): Promise<void> {
		this.#world.clearTimer(this.#timer);
		await this.#world.store.wipe();
	}
}

const waitOf = (outcome: Outcome<unknown>): number =>
	outcome.kind === "later" ? outcome.after * 1000 : 0;

/** What a phone gives its pictures. */
export interface PhonePhotos {
	fetch: typeof fetch;
	online(): boolean;
	token(): Promise<string>;
	forgetToken(): void;
	view(): Promise<{ photos: { hash: string }[]; gone: string[] }>;
	role(): string;
}

/** The pictures of the phone that this page is. */
export function phonePhotos(phone: PhonePhotos): Photos {
	return new Photos({
		net: new PhotoNet(phone),
		store: new PhotoStore(),
		pictureOf,
		named: async () => {
			const { photos, gone } = await phone.view();
			return { live: [...new Set(photos.map((one) => one.hash))], gone };
		},
		mayWrite: () => phone.role() === "keeper" || phone.role() === "feeder",
		online: phone.online,
		now: Date.now,
		rand: Math.random,
		setTimer: (run, ms) => setTimeout(run, ms),
		clearTimer: (timer) => clearTimeout(timer as ReturnType<typeof setTimeout>),
		alone: async (work) => {
			if (!navigator.locks) return work().then(() => true);
			return navigator.locks.request("trayside-photos", { ifAvailable: true }, async (free) => {
				if (free) await work();
				return free !== null;
			});
		},
	});
}
