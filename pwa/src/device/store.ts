// What the phone keeps, in IndexedDB. An entry counts as saved only when its
// transaction has completed with strict durability; everything else here may be
// lost and is then made again from the entries.

import { type IDBPDatabase, type IDBPTransaction, openDB } from "idb";
import type { Refusal, StoreEffect } from "./border.ts";
import { idOf } from "./bytes.ts";
import {
	ALL,
	type CheckpointRow,
	DATABASE,
	type KeyRow,
	type Layout,
	type Meta,
	type Name,
	type OpRow,
	type ProjectionRow,
	type RefusedRow,
	VERSION,
} from "./layout.ts";

/** Why something could not be kept. */
export class StoreFault extends Error {
	override name = "StoreFault";
	readonly kind: "full" | "locked" | "broken";
	constructor(kind: "full" | "locked" | "broken", cause: unknown) {
		super(`storage is ${kind}: ${String(cause)}`, { cause });
		this.kind = kind;
	}
}

export interface StoreEvents {
	/** Another tab with an older app keeps this one from opening. */
	blocked(): void;
	/** A newer app wants the storage: it was given up; reload. */
	outdated(): void;
}

/** What a cold start reads, in one transaction. */
export interface Start {
	checkpoint: CheckpointRow | undefined;
	tail: OpRow[];
	unshared: string[];
	roster: string[];
	meta: Partial<Meta>;
}

export class Store {
	#db: IDBPDatabase<Layout>;
	#locked: boolean;

	private constructor(db: IDBPDatabase<Layout>, locked: boolean) {
		this.#db = db;
		this.#locked = locked;
	}

	/** May read and export, never write: an older app over newer storage, and
	 * whatever a page still has under way when its phone was emptied. */
	get locked(): boolean {
		return this.#locked;
	}

	/** Another tab has emptied this phone. */
	lock(): void {
		this.#locked = true;
	}

	static async open(events: StoreEvents, name = DATABASE): Promise<Store> {
		const callbacks = {
			blocked: () => events.blocked(),
			blocking: (_now: number, _next: number | null, event: IDBVersionChangeEvent) => {
				(event.target as IDBDatabase).close();
				events.outdated();
			},
		};
		try {
			const db = await openDB<Layout>(name, VERSION, {
				upgrade(db, from) {
					if (from < 1) {
						const ops = db.createObjectStore("ops", { keyPath: "seq", autoIncrement: true });
						ops.createIndex("id", "id", { unique: true });
						ops.createIndex("known", "known");
						db.createObjectStore("roster", { keyPath: "text" });
						db.createObjectStore("drafts");
						db.createObjectStore("checkpoint");
						db.createObjectStore("projection");
						db.createObjectStore("meta");
						db.createObjectStore("refused", { keyPath: "id" });
						db.createObjectStore("keys");
					}
				},
				...callbacks,
			});
			return new Store(db, false);
		} catch (why) {
			if ((why as Error).name !== "VersionError") throw new StoreFault("broken", why);
			return new Store(await openDB<Layout>(name, undefined, callbacks), true);
		}
	}

	close(): void {
		this.#db.close();
	}

	/** Runs `work` in one durable transaction and waits for its end. */
	async #write<T>(
		names: Name[],
		work: (tx: IDBPTransaction<Layout, Name[], "readwrite">) => Promise<T>,
	): Promise<T> {
		if (this.locked) throw new StoreFault("locked", "this page may not write any more");
		let tx: IDBPTransaction<Layout, Name[], "readwrite">;
		try {
			tx = this.#db.transaction<Name[], "readwrite">(names, "readwrite", { durability: "strict" });
		} catch (why) {
			throw new StoreFault("broken", why);
		}
		const worked = work(tx).catch((why: unknown) => {
			abort(tx);
			throw why;
		});
		// A failed request also aborts its transaction; why it did stands on
		// either promise, and only the end of the transaction counts.
		const [result, done] = await Promise.allSettled([worked, tx.done]);
		if (result.status === "fulfilled" && done.status === "fulfilled") return result.value;
		const reasons = [result, done].flatMap((r) => (r.status === "rejected" ? [r.reason] : []));
		throw new StoreFault(reasons.some(isQuota) ? "full" : "broken", reasons[0]);
	}

	/** Keeps entries made on this phone. Resolves once they are durable. */
	async save(texts: string[]): Promise<void> {
		const rows = await named(texts);
		await this.#write(["ops"], (tx) => addOps(tx.objectStore("ops"), rows, true));
	}

	/** The texts of those of `ids` that are held. */
	async load(ids: string[]): Promise<string[]> {
		const index = this.#db.transaction("ops").store.index("id");
		const rows = await Promise.all(ids.map((id) => index.get(id)));
		return rows.flatMap((row) => (row ? [row.text] : []));
	}

	/** Carries out one store effect: all of it or nothing of it. Gives the first
	 * and last `seq` of the entries that were new, null if none was. */
	async apply(effect: StoreEffect, now: number): Promise<{ first: number; last: number } | null> {
		const rows = await named(effect.ops ?? []);
		return this.#write(["ops", "roster", "refused", "meta", "checkpoint"], async (tx) => {
			const ops = tx.objectStore("ops");
			const added = await addOps(ops, rows, false);
			for (const id of effect.known ?? []) await mark(ops, id, false);
			for (const id of effect.unknown ?? []) await mark(ops, id, true);
			for (const refusal of effect.refused ?? []) await setAside(tx, refusal, now);
			for (const text of effect.roster ?? []) await tx.objectStore("roster").put({ text });
			const meta = tx.objectStore("meta");
			if (effect.hint) await meta.put(effect.hint, "hint");
			await raise(meta, "floor", effect.floor);
			await raise(meta, "heard", effect.heard);
			const [first, last] = [added[0], added.at(-1)];
			return first === undefined || last === undefined ? null : { first, last };
		});
	}

	async start(): Promise<Start> {
		const tx = this.#db.transaction(["checkpoint", "ops", "roster", "meta"]);
		const checkpoint = await tx.objectStore("checkpoint").get("latest");
		const range = IDBKeyRange.lowerBound(checkpoint?.seq ?? 0, true);
		const tail = (await tx.objectStore("ops").getAll(range)) as OpRow[];
		const unknown = (await tx.objectStore("ops").index("known").getAll(0)) as OpRow[];
		const roster = (await tx.objectStore("roster").getAll()).map((row) => row.text);
		const meta = await readMeta(tx.objectStore("meta"));
		return { checkpoint, tail, unshared: unknown.map((row) => row.id), roster, meta };
	}

	/** Entries kept after `seq`, in the order they came. */
	async after(seq: number, limit: number): Promise<OpRow[]> {
		return (await this.#db.getAll("ops", IDBKeyRange.lowerBound(seq, true), limit)) as OpRow[];
	}

	/** How many entries the server has not said to hold. */
	waiting(): Promise<number> {
		return this.#db.countFromIndex("ops", "known", 0);
	}

	async everything(): Promise<{ ops: OpRow[]; roster: string[]; refused: RefusedRow[] }> {
		const tx = this.#db.transaction(["ops", "roster", "refused"]);
		return {
			ops: (await tx.objectStore("ops").getAll()) as OpRow[],
			roster: (await tx.objectStore("roster").getAll()).map((row) => row.text),
			refused: await tx.objectStore("refused").getAll(),
		};
	}

	async unshared(): Promise<OpRow[]> {
		return (await this.#db.getAllFromIndex("ops", "known", 0)) as OpRow[];
	}

	refused(): Promise<RefusedRow[]> {
		return this.#db.getAll("refused");
	}

	discardRefused(id: string): Promise<void> {
		return this.#write(["refused"], (tx) => tx.objectStore("refused").delete(id));
	}

	/** A checkpoint speaks for every entry up to its `seq`, so an older one
	 * never replaces a newer one of the same engine (two tabs). */
	async saveCheckpoint(row: CheckpointRow): Promise<void> {
		await this.#write(["checkpoint"], async (tx) => {
			const held = await tx.objectStore("checkpoint").get("latest");
			if (held && held.engine === row.engine && held.seq > row.seq) return;
			await tx.objectStore("checkpoint").put(row, "latest");
		});
	}

	async meta(): Promise<Partial<Meta>> {
		return readMeta(this.#db.transaction("meta").store);
	}

	async setMeta(values: Partial<Meta>): Promise<void> {
		await this.#write(["meta"], async (tx) => {
			const meta = tx.objectStore("meta");
			for (const [key, value] of Object.entries(values)) await meta.put(value, key);
		});
	}

	/** What joining gave, in one go: who we are and whom we believe. Entries kept
	 * when this phone left another household have no place in this one; those of
	 * the same household come along. */
	async joined(values: Partial<Meta>, roster: string[]): Promise<void> {
		await this.#write(["meta", "roster", "ops", "refused"], async (tx) => {
			const meta = tx.objectStore("meta");
			if ((await meta.get("was")) !== values.household) {
				await tx.objectStore("ops").clear();
				await tx.objectStore("refused").clear();
			}
			for (const [key, value] of Object.entries(values)) await meta.put(value, key);
			for (const done of ["joining", "wiped", "was"]) await meta.delete(done);
			for (const text of roster) await tx.objectStore("roster").put({ text });
		});
	}

	/** Keeps signed roster texts; those held already stay as they are. */
	async believe(texts: string[]): Promise<void> {
		await this.#write(["roster"], async (tx) => {
			for (const text of texts) await tx.objectStore("roster").put({ text });
		});
	}

	/** All signed roster texts. They only grow in number. */
	async roster(): Promise<string[]> {
		return (await this.#db.getAll("roster")).map((row) => row.text);
	}

	/** How many there are. */
	believed(): Promise<number> {
		return this.#db.count("roster");
	}

	key(): Promise<KeyRow | undefined> {
		return this.#db.get("keys", "device");
	}

	async saveKey(row: KeyRow): Promise<void> {
		await this.#write(["keys"], (tx) => tx.objectStore("keys").put(row, "device"));
	}

	projection(key: string): Promise<ProjectionRow | undefined> {
		return this.#db.get("projection", key);
	}

	/** Remembered views are a convenience: a full phone just forgets them. */
	async saveProjection(key: string, row: ProjectionRow): Promise<void> {
		if (this.locked) return;
		try {
			await this.#db.put("projection", row, key);
		} catch (why) {
			if (!isQuota(why)) throw why;
			await this.#db.clear("projection");
		}
	}

	draft(key: string): Promise<unknown> {
		return this.#db.get("drafts", key);
	}

	async saveDraft(key: string, value: unknown): Promise<void> {
		await this.#write(["drafts"], (tx) => tx.objectStore("drafts").put(value, key));
	}

	async dropDraft(key: string): Promise<void> {
		await this.#write(["drafts"], (tx) => tx.objectStore("drafts").delete(key));
	}

	/** Empties this phone. `keepLog` leaves the entries for an export. This page
	 * writes nothing afterwards; the next one may. */
	async wipe(reason: string, keepLog: boolean): Promise<void> {
		const before = this.#locked;
		const emptied = this.#write(ALL, async (tx) => {
			const meta = tx.objectStore("meta");
			const was = (await meta.get("household")) ?? (await meta.get("was"));
			for (const name of ALL) {
				if (keepLog && (name === "ops" || name === "refused")) continue;
				await tx.objectStore(name).clear();
			}
			await meta.put(reason, "wiped");
			if (keepLog && was) await meta.put(was, "was");
		});
		this.#locked = true; // the transaction has begun: what comes now would come after it
		await emptied.catch((why: unknown) => {
			this.#locked = before;
			throw why;
		});
	}

	/** How many entries lie here, those not accepted included. */
	async held(): Promise<number> {
		const tx = this.#db.transaction(["ops", "refused"]);
		const counts = [tx.objectStore("ops").count(), tx.objectStore("refused").count()];
		return (await Promise.all(counts)).reduce((sum, count) => sum + count, 0);
	}
}

type Ops = {
	index(name: "id"): { getKey(id: string): Promise<number | undefined> };
	get(seq: number): Promise<(Omit<OpRow, "seq"> & { seq?: number }) | undefined>;
	add(row: Omit<OpRow, "seq">): Promise<number>;
	put(row: OpRow): Promise<number>;
	delete(seq: number): Promise<void>;
};

async function named(texts: string[]): Promise<Omit<OpRow, "seq" | "known">[]> {
	return Promise.all(texts.map(async (text) => ({ id: await idOf(text), text })));
}

/** Adds the entries that are not held yet; those that do not wait are known to the
 * server, if they are held, too. The requests of each step go off
 * together: waiting for one after the other makes a first pull several times as long. */
async function addOps(
	ops: Ops,
	rows: { id: string; text: string }[],
	waits: boolean,
): Promise<number[]> {
	const byId = new Map(rows.map((row) => [row.id, row]));
	const index = ops.index("id");
	const keys = await Promise.all([...byId.keys()].map(async (id) => index.getKey(id)));
	const each = [...byId.values()].map((row, i) => ({ row, held: keys[i] !== undefined }));
	if (!waits) {
		await Promise.all(each.filter((e) => e.held).map((e) => mark(ops, e.row.id, false)));
	}
	const fresh = each.filter((e) => !e.held);
	return Promise.all(
		fresh.map(async ({ row: { id, text } }) =>
			ops.add({ id, text, ...(waits ? { known: 0 } : {}) }),
		),
	);
}

async function mark(ops: Ops, id: string, waits: boolean): Promise<void> {
	const seq = await ops.index("id").getKey(id);
	const row = seq === undefined ? undefined : await ops.get(seq);
	if (seq === undefined || !row || (row.known === 0) === waits) return;
	const { known: _before, ...rest } = row;
	await ops.put({ ...rest, seq, ...(waits ? { known: 0 } : {}) });
}

/** Moves an entry to the drawer. The checkpoint may hold it, so it goes too. */
async function setAside(
	tx: IDBPTransaction<Layout, Name[], "readwrite">,
	refusal: Refusal,
	when: number,
): Promise<void> {
	const ops = tx.objectStore("ops") as unknown as Ops;
	const seq = await ops.index("id").getKey(refusal.id);
	const row = seq === undefined ? undefined : await ops.get(seq);
	if (seq === undefined || !row) return;
	await tx
		.objectStore("refused")
		.put({ id: refusal.id, text: row.text, why: refusal.why ?? refusal.code, when });
	await ops.delete(seq);
	await tx.objectStore("checkpoint").clear();
}

type MetaStore = {
	get(key: string): Promise<unknown>;
	put(value: unknown, key: string): Promise<string>;
};

/** Writes a time only if it is newer than the one kept. */
async function raise(meta: MetaStore, key: "floor" | "heard", value: number | undefined) {
	if (!value) return;
	const held = (await meta.get(key)) as number | undefined;
	if (held === undefined || value > held) await meta.put(value, key);
}

async function readMeta(meta: {
	getAllKeys(): Promise<string[]>;
	getAll(): Promise<unknown[]>;
}): Promise<Partial<Meta>> {
	const [keys, values] = await Promise.all([meta.getAllKeys(), meta.getAll()]);
	return Object.fromEntries(keys.map((key, i) => [key, values[i]])) as Partial<Meta>;
}

function abort(tx: { abort(): void }): void {
	try {
		tx.abort();
	} catch {
		// It has ended already.
	}
}

function isQuota(why: unknown): boolean {
	const name = (why as { name?: string } | null)?.name;
	return name === "QuotaExceededError";
}
