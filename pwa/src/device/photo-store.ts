// Pictures on this phone, in a database of their own: however many there are,
// the entries' storage does not notice, and its layout stays as it is.

import { type DBSchema, deleteDB, type IDBPDatabase, openDB } from "idb";

const DATABASE = "trayside-photos";
const VERSION = 1;

/** What is known of a kept picture; the bytes lie beside it. */
export interface PhotoRow {
	hash: string;
	/** When it came here, ms. */
	at: number;
	/** 1 when the server has said that it holds it. */
	shared: 0 | 1;
	/** Why the server does not take it, its stable code; "" if it wasn't refused. */
	refused: string;
}

interface PhotoLayout extends DBSchema {
	rows: { key: string; value: PhotoRow };
	bytes: { key: string; value: ArrayBuffer };
}

export class PhotoStore {
	readonly #name: string;
	#db: Promise<IDBPDatabase<PhotoLayout>> | undefined;
	#gone = false;

	constructor(name = DATABASE) {
		this.#name = name;
	}

	#open(): Promise<IDBPDatabase<PhotoLayout>> {
		if (this.#gone) return Promise.reject(new Error("photos: this phone was emptied"));
		this.#db ??= openDB<PhotoLayout>(this.#name, VERSION, {
			upgrade(db) {
				db.createObjectStore("rows", { keyPath: "hash" });
				db.createObjectStore("bytes");
			},
			// Another tab empties the phone or brings a newer layout.
			blocking: (_now, _next, event) => {
				(event.target as IDBDatabase).close();
				this.#db = undefined;
			},
			terminated: () => {
				this.#db = undefined;
			},
		}).catch((why: unknown) => {
			this.#db = undefined;
			throw why;
		});
		return this.#db;
	}

	/** Keeps a picture. Resolves once it is durable; one that is kept stays as it is. */
	async put(row: PhotoRow, bytes: ArrayBuffer): Promise<void> {
		const db = await this.#open();
		const tx = db.transaction(["rows", "bytes"], "readwrite", { durability: "strict" });
		if (!(await tx.objectStore("rows").get(row.hash))) {
			await tx.objectStore("rows").put(row);
			await tx.objectStore("bytes").put(bytes, row.hash);
		}
		await tx.done;
	}

	async rows(): Promise<PhotoRow[]> {
		return (await this.#open()).getAll("rows");
	}

	async bytes(hash: string): Promise<ArrayBuffer | undefined> {
		return (await this.#open()).get("bytes", hash);
	}

	/** Writes down what the server said of a picture. */
	async mark(hash: string, said: Partial<Pick<PhotoRow, "shared" | "refused">>): Promise<void> {
		const tx = (await this.#open()).transaction("rows", "readwrite");
		const row = await tx.store.get(hash);
		if (row) await tx.store.put({ ...row, ...said });
		await tx.done;
	}

	async drop(hash: string): Promise<void> {
		const tx = (await this.#open()).transaction(["rows", "bytes"], "readwrite", {
			durability: "strict",
		});
		await tx.objectStore("rows").delete(hash);
		await tx.objectStore("bytes").delete(hash);
		await tx.done;
	}

	/** Empties this phone of pictures; this page keeps none afterwards. */
	async wipe(): Promise<void> {
		this.#gone = true;
		(await this.#db?.catch(() => undefined))?.close();
		this.#db = undefined;
		await deleteDB(this.#name);
	}
}
