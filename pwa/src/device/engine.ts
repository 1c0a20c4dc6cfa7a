// The page's side of the engine: calls as promises, and what happens when the
// engine dies. A dead engine is replaced by a fresh one; whoever owns this
// opens it again from storage, so that nothing saved depends on its memory.

import type { CallName, Calls } from "./border.ts";
import { decodeFrame, encodeFrame } from "./frame.ts";

export interface ToWorker {
	id: number;
	call: CallName;
	frame: Uint8Array;
}

export type FromWorker =
	| { id: number; frame: Uint8Array }
	| { id: number; error: string }
	| { died: string };

/** The part of Worker that is needed here. */
export interface WorkerLike {
	postMessage(message: ToWorker, transfer: Transferable[]): void;
	onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
	onerror: ((event: ErrorEvent) => void) | null;
	terminate(): void;
}

/** The call was lost because the engine died; a fresh engine is on its way. */
export class EngineDied extends Error {
	override name = "EngineDied";
}

interface Waiting {
	resolve(frame: Uint8Array): void;
	reject(why: Error): void;
}

// An engine that dies this often within a minute will not do better the next
// time: the app then says so and offers the export (our choice).
const MOST_DEATHS = 3;
const DEATHS_WITHIN_MS = 60_000;

export class Engine {
	#make: () => WorkerLike;
	#worker: WorkerLike;
	#waiting = new Map<number, Waiting>();
	#next = 1;
	#deaths: number[] = [];
	#now: () => number;
	#gaveUp = "";
	/** Called after the engine was replaced; `gaveUp` when it won't be. */
	onDied: (why: string, gaveUp: boolean) => void = () => {};

	constructor(make: () => WorkerLike, now: () => number = Date.now) {
		this.#make = make;
		this.#now = now;
		this.#worker = this.#start();
	}

	async call<C extends CallName>(
		call: C,
		header: Calls[C][0],
		body?: Uint8Array,
	): Promise<{ header: Calls[C][1]; body: Uint8Array }> {
		if (this.#gaveUp) throw new EngineDied(this.#gaveUp);
		const id = this.#next++;
		const frame = encodeFrame(header, body);
		const answer = await new Promise<Uint8Array>((resolve, reject) => {
			this.#waiting.set(id, { resolve, reject });
			this.#worker.postMessage({ id, call, frame }, [frame.buffer as ArrayBuffer]);
		});
		const decoded = decodeFrame(answer);
		const { error } = decoded.header as { error?: string };
		if (error) throw new Error(`engine: ${call}: ${error}`);
		return { header: decoded.header as Calls[C][1], body: decoded.body };
	}

	/** Puts a fresh engine in place of this one, e.g. to open it from storage
	 * anew. Calls under way are lost as if the engine had died. */
	restart(why: string): void {
		this.#worker.onmessage = null;
		this.#worker.onerror = null;
		this.#worker.terminate();
		const lost = [...this.#waiting.values()];
		this.#waiting.clear();
		this.#worker = this.#start();
		for (const call of lost) call.reject(new EngineDied(why));
	}

	#start(): WorkerLike {
		const worker = this.#make();
		worker.onmessage = ({ data }) => {
			if ("died" in data) {
				this.#died(data.died);
				return;
			}
			const call = this.#waiting.get(data.id);
			this.#waiting.delete(data.id);
			if ("frame" in data) call?.resolve(data.frame);
			else call?.reject(new Error(`engine: ${data.error}`));
		};
		worker.onerror = (event) => this.#died(event.message || "the engine's worker failed");
		return worker;
	}

	#died(why: string): void {
		const now = this.#now();
		this.#deaths = [...this.#deaths.filter((at) => now - at < DEATHS_WITHIN_MS), now];
		const gaveUp = this.#deaths.length >= MOST_DEATHS;
		if (gaveUp) {
			this.#gaveUp = why;
			this.#worker.terminate();
			for (const call of this.#waiting.values()) call.reject(new EngineDied(why));
			this.#waiting.clear();
		} else {
			this.restart(why);
		}
		this.onDied(why, gaveUp);
	}
}
