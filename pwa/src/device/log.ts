// The household's log on this phone: storage and engine kept in step. Entries go
// to the storage first and reach the engine from there, in the order they were
// kept, so the engine never knows anything that a crash could take back, and a
// second tab's entries come in by the same door.

import type { Recorded, RecordFault, ScreenName, Shown, ViewArgs, Views } from "../app-api.ts";
import { language } from "../language.ts";
import type { Hint, Intent } from "../types.gen.ts";
import type { Calls, Effect, ExchangeEvent } from "./border.ts";
import { randomHex } from "./bytes.ts";
import { type Engine, EngineDied } from "./engine.ts";
import type { OpRow } from "./layout.ts";
import { type Store, StoreFault } from "./store.ts";
import { fits } from "./vouch.ts";

// One batch for the engine: small enough that an entry made meanwhile waits a
// few milliseconds, large enough that the border costs little (our choice).
const BATCH = 500;

// 128 bits for each of the things one intent may make.
const RANDOM_BYTES = 64;

export interface LogWorld {
	/** Names the build of the engine; a checkpoint of another one is not read. */
	engineName: string;
	/** Now in ms, by the household's clock where it is known. */
	now(): number;
	day(ms?: number): string;
	instant(): string;
	/** Views may have changed. */
	changed(): void;
}

/** Where a view is remembered. */
export const viewKey = (screen: ScreenName, args: ViewArgs): string =>
	[screen, args.arg ?? "", args.before ?? ""].join("|");

/** Answers to what is being typed: a new one at every key, so none is kept. */
const passing: ReadonlySet<ScreenName> = new Set(["food", "filling"]);

export class Log {
	#store: Store;
	#engine: Engine;
	#world: LogWorld;
	/** The engine has been given every entry up to this one. */
	#fed = 0;
	/** The storage has a checkpoint of every entry up to this one. */
	#covered = 0;
	/** The engine gave a checkpoint that the storage doesn't have. */
	#lost = false;
	/** Roster texts it has been given. */
	#believed = 0;
	#turn: Promise<unknown> = Promise.resolve();
	#ready = false;
	#opened: Promise<void> = new Promise(() => {});
	/** The engine that stands now has been asked to open; it may still be reading. */
	#begun: Promise<void> = new Promise(() => {});

	constructor(store: Store, engine: Engine, world: LogWorld) {
		this.#store = store;
		this.#engine = engine;
		this.#world = world;
	}

	get ready(): boolean {
		return this.#ready;
	}

	/** Opens the engine from storage; again after a death or a refusal. */
	open(): Promise<void> {
		this.#ready = false;
		this.#begun = new Promise((resolve, reject) => {
			this.#opened = this.#alone(() => this.#open(resolve));
			this.#opened.catch(reject);
		});
		this.#begun.catch(() => {});
		return this.#opened;
	}

	/** Opens a fresh engine from storage. */
	reopen(why: string): Promise<void> {
		this.#engine.restart(why);
		return this.open();
	}

	async #open(begun: () => void): Promise<void> {
		const { checkpoint, unshared, roster, meta } = await this.#store.start();
		const usable = checkpoint?.engine === this.#world.engineName ? checkpoint : undefined;
		this.#fed = usable?.seq ?? 0;
		this.#covered = this.#fed;
		this.#lost = false;
		this.#believed = roster.length;
		const rows = await this.#store.after(this.#fed, BATCH);
		const asked = this.#engine.call(
			"open",
			{
				now: this.#world.now(),
				household: meta.household ?? "",
				device: meta.device ?? "",
				member: meta.member ?? "",
				unshared,
				hint: (meta.hint as Hint | undefined) ?? null,
				floor: meta.floor ?? 0,
				heard: meta.heard ?? 0,
				tail: rows.map((row) => row.text),
				roster,
				more: rows.length === BATCH,
			},
			usable?.bytes,
		);
		begun(); // the worker answers in order: what is asked from now on comes after this
		const { header } = await asked;
		if (usable && header.state === "rebuilding") {
			// The engine could not use its checkpoint: it gets the whole log.
			this.#fed = 0;
			this.#covered = 0;
			await this.#feed(false);
		} else {
			this.#fed = rows.at(-1)?.seq ?? this.#fed;
			if (rows.length === BATCH) await this.#feed(false);
		}
		this.#ready = true;
		this.#world.changed();
	}

	/** Writes an entry: stamped by the engine, durable, then told. */
	async record(intent: Intent): Promise<Recorded> {
		if (this.#store.locked) return { ok: false, fault: { kind: "locked" } };
		try {
			const header = await this.#stamp(intent).catch((why) => {
				if (!(why instanceof EngineDied)) throw why;
				return this.#stamp(intent); // nothing was kept, and another engine is on its way
			});
			if (header.slip && header.slip.kind !== "") {
				return { ok: false, fault: { kind: "slip", slip: header.slip } };
			}
			if (header.refused) return { ok: false, fault: { kind: "refused", ...header.refused } };
			await this.#store.save(header.ops ?? []);
			const { entity, entities } = header;
			return { ok: true, entity, ...(entities ? { entities } : {}) };
		} catch (why) {
			return { ok: false, fault: faultOf(why) };
		}
	}

	async #stamp(intent: Intent): Promise<Calls["record"][1]> {
		// An entry must know of those before it, of other tabs too; while the log
		// is still being read it doesn't wait for that. An engine that was replaced
		// meanwhile has to be opened first.
		for (let begun: Promise<void> | undefined; begun !== this.#begun; ) {
			begun = this.#begun;
			await begun;
			if (this.#ready) await this.catchUp();
		}
		const { header } = await this.#engine.call("record", {
			now: this.#world.now(),
			rand: randomHex(RANDOM_BYTES),
			intent: {
				...intent,
				at: intent.at || this.#world.instant(),
				day: intent.day || this.#world.day(),
			},
		});
		return header;
	}

	/** Keeps roster texts that this phone signed, and gives them to the engine. */
	async believe(texts: string[]): Promise<void> {
		if (!(await Promise.all(texts.map(fits))).every(Boolean)) {
			throw new Error("a roster text does not carry its key's signature; nothing was kept");
		}
		await this.#store.believe(texts);
		await this.catchUp();
	}

	/** Gives the engine what the storage has more than it. True if there was any. */
	catchUp(): Promise<boolean> {
		return this.#alone(async () => {
			const news = await this.#vouch();
			return (await this.#feed(true)) || news;
		});
	}

	/** Passes on roster texts that this tab signed, or another signed or heard. */
	async #vouch(): Promise<boolean> {
		if ((await this.#store.believed()) === this.#believed) return false;
		const roster = await this.#store.roster();
		await this.#engine.call("receive", { ops: [], roster, mine: false, more: false });
		this.#believed = roster.length;
		return true;
	}

	/** An exchange stored these, and its loop has folded them already. */
	stored(range: { first: number; last: number } | null): void {
		if (range && range.first === this.#fed + 1) this.#fed = range.last;
	}

	/** `own` feeds what was kept since; without it, the rest of a log that is
	 * being read, whose last batch says so even when it is empty. */
	async #feed(own: boolean): Promise<boolean> {
		let any = false;
		for (;;) {
			const rows = await this.#store.after(this.#fed, BATCH);
			const more = rows.length === BATCH;
			if (own && rows.length === 0) return any;
			for (const run of own ? runs(rows) : [rows]) {
				await this.#engine.call("receive", {
					ops: run.map((row) => row.text),
					mine: own && run[0]?.known === 0,
					more: !own && more,
				});
			}
			this.#fed = rows.at(-1)?.seq ?? this.#fed;
			any = true;
			if (!more) return any;
		}
	}

	async view<S extends ScreenName>(screen: S, args: ViewArgs): Promise<Shown<Views[S]>> {
		const key = viewKey(screen, args);
		if (!this.#ready) {
			const held = await this.#store.projection(key);
			if (held && !this.#ready) return { data: held.data as Views[S], from: held.at };
			await this.#opened;
		}
		const at = this.#world.now();
		const data = (await this.ask(screen, args)) as Views[S];
		if (passing.has(screen)) return { data, from: null };
		void this.#store.saveProjection(key, { data, at }).catch(() => {});
		return { data, from: null };
	}

	/** A view straight from the engine; once more if it died over it. */
	async ask(screen: string, args: ViewArgs = {}): Promise<unknown> {
		const header = {
			screen,
			arg: args.arg ?? "",
			before: args.before ?? "",
			day: this.#world.day(),
			now: this.#world.now(),
			language,
		};
		try {
			return (await this.#engine.call("view", header)).header;
		} catch (why) {
			if (!(why instanceof EngineDied)) throw why;
			await this.#opened;
			return (await this.#engine.call("view", header)).header;
		}
	}

	async step(event: ExchangeEvent): Promise<Effect[]> {
		return (await this.#engine.call("exchange", event)).header.effects ?? [];
	}

	/** Keeps a new checkpoint if there are entries that the last one doesn't
	 * cover, or the engine has worked out more than it holds. */
	checkpoint(rand: number, now: number): Promise<void> {
		return this.#alone(async () => {
			if (!this.#ready || this.#store.locked) return;
			const seq = this.#fed;
			const news = seq > this.#covered || this.#lost;
			const { header, body } = await this.#engine.call("exchange", {
				kind: "idle",
				now,
				rand,
				news,
			});
			if (!header.checkpoint || body.length === 0) return;
			const { count, root } = header.checkpoint;
			const engine = this.#world.engineName;
			this.#lost = true;
			await this.#store.saveCheckpoint({ seq, engine, count, root, bytes: body });
			this.#lost = false;
			this.#covered = seq;
		});
	}

	/** One after the other: what feeds the engine must not interleave. */
	#alone<T>(work: () => Promise<T>): Promise<T> {
		const turn = this.#turn.then(work, work);
		this.#turn = turn.catch(() => {});
		return turn;
	}
}

/** Cuts rows where own entries and others' meet. */
function runs(rows: OpRow[]): OpRow[][] {
	const cut: OpRow[][] = [];
	for (const row of rows) {
		const last = cut.at(-1);
		if (last && (last[0]?.known === 0) === (row.known === 0)) last.push(row);
		else cut.push([row]);
	}
	return cut;
}

function faultOf(why: unknown): RecordFault {
	if (why instanceof StoreFault && why.kind !== "broken") return { kind: why.kind };
	return { kind: "broken", detail: String(why) };
}
