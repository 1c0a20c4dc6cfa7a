// Carries out what the engine's loop of an exchange asks for, and tells it what
// came of it. It decides nothing: when to ask, what to send, when to try again
// and what counts as shared are the loop's business, in Go.

import type { Effect, ExchangeEvent, StoreEffect, SyncStatus } from "./border.ts";
import { AuthRefused } from "./keys.ts";
import { type Answer, NetFault } from "./net.ts";

export interface CarrierWorld {
	/** One step of the loop. Rejects when the engine died. */
	step(event: ExchangeEvent): Promise<Effect[]>;
	post(path: string, body: string, token: string): Promise<Answer>;
	token(): Promise<string>;
	forgetToken(): void;
	load(ids: string[]): Promise<string[]>;
	/** All of it durable, or it rejects and nothing is. */
	store(effect: StoreEffect): Promise<void>;
	/** After the loop has heard that the store is durable. */
	stored(effect: StoreEffect): Promise<void>;
	status(status: SyncStatus): void;
	changed(): void;
	wipe(reason: string): Promise<void>;
	now(): number;
	rand(): number;
	setTimer(run: () => void, ms: number): unknown;
	clearTimer(timer: unknown): void;
}

type News = Omit<ExchangeEvent, "now" | "rand">;

export class Carrier {
	#world: CarrierWorld;
	#queue: Promise<void> = Promise.resolve();
	#timer: unknown = null;
	// Each engine has its era: effects and events of one that was replaced mean
	// nothing to the next.
	#era = 0;
	#running = false;

	constructor(world: CarrierWorld) {
		this.#world = world;
	}

	/** Begins with an engine that was just opened. */
	start(): Promise<void> {
		this.#era++;
		this.#running = true;
		return this.tell({ kind: "start" });
	}

	/** Forgets what is under way: the engine is gone or about to be replaced.
	 * Until the next start nothing is told to anybody. */
	pause(): void {
		this.#era++;
		this.#running = false;
		this.#world.clearTimer(this.#timer);
	}

	/** Tells the loop what happened. Events are taken one at a time, in order;
	 * resolves when this one's effects are under way. */
	tell(news: News): Promise<void> {
		const era = this.#era;
		this.#queue = this.#queue.then(() => this.#step(news, era));
		return this.#queue;
	}

	async #step(news: News, era: number): Promise<void> {
		if (!this.#running || era !== this.#era) return;
		const event = { ...news, now: this.#world.now(), rand: this.#world.rand() };
		let effects: Effect[];
		try {
			effects = await this.#world.step(event);
		} catch {
			return; // The engine died; its owner opens a fresh one and starts this again.
		}
		for (const effect of effects) {
			if (!this.#running || era !== this.#era) return;
			await this.#carry(effect, era);
		}
	}

	async #carry(effect: Effect, era: number): Promise<void> {
		const world = this.#world;
		const answer = (news: News): void => {
			if (era === this.#era) void this.tell(news);
		};
		switch (effect.kind) {
			case "post":
				void this.#post(effect).then(answer);
				return;
			case "load":
				void world.load(effect.ids).then(
					(ops) => answer({ kind: "loaded", seq: effect.seq, ops }),
					(why) => answer({ kind: "failed", seq: effect.seq, reason: String(why) }),
				);
				return;
			case "store":
				return this.#store(effect, era);
			case "authenticate":
				world.forgetToken();
				void this.#authenticate(effect.seq).then(answer);
				return;
			case "timer":
				world.clearTimer(this.#timer);
				this.#timer = world.setTimer(() => answer({ kind: "timer", seq: effect.seq }), effect.ms);
				return;
			case "status":
				world.status(effect.status);
				return;
			case "changed":
				world.changed();
				return;
			case "wipe":
				this.pause();
				return world.wipe(effect.reason);
			default:
				// An engine newer than this page: it will be told nothing, and asks again.
				effect satisfies never;
		}
	}

	/** The order matters: durable first, then the loop hears of it, then whoever
	 * counts what the engine has been given. */
	async #store(effect: Extract<Effect, { kind: "store" }>, era: number): Promise<void> {
		try {
			await this.#world.store(effect.store);
		} catch (why) {
			void this.tell({ kind: "storefailed", seq: effect.seq, reason: String(why) });
			return;
		}
		void this.tell({ kind: "stored", seq: effect.seq }).then(() =>
			era === this.#era ? this.#world.stored(effect.store) : undefined,
		);
	}

	async #post(effect: Extract<Effect, { kind: "post" }>): Promise<News> {
		const { seq } = effect;
		try {
			const token = await this.#world.token();
			const answer = await this.#world.post(effect.path, effect.body, token);
			return { kind: "answer", seq, ...heard(answer) };
		} catch (why) {
			// A refused key is the same answer as a refused request.
			if (why instanceof AuthRefused) return { kind: "answer", seq, ...heard(why.answer) };
			return { kind: "failed", seq, reason: why instanceof NetFault ? why.reason : String(why) };
		}
	}

	async #authenticate(seq: number): Promise<News> {
		try {
			await this.#world.token();
			return { kind: "authed", seq };
		} catch (why) {
			if (why instanceof AuthRefused) return { kind: "authfailed", seq, ...heard(why.answer) };
			const reason = why instanceof NetFault ? why.reason : String(why);
			return { kind: "authfailed", seq, status: 0, reason };
		}
	}
}

function heard(answer: Answer): Pick<News, "status" | "body" | "json" | "retryAfter"> {
	return {
		status: answer.status,
		body: answer.body,
		json: answer.data !== undefined,
		retryAfter: answer.retryAfter,
	};
}
