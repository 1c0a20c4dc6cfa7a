// The way to the household: which tab talks to the server, when it does, and
// what it hears. One tab leads; it carries the exchanges and listens for the
// ripple; the others hear from it.

import type { StoreEffect, SyncStatus } from "./border.ts";
import { Carrier } from "./carrier.ts";
import type { Auth } from "./keys.ts";
import type { Log } from "./log.ts";
import type { Net } from "./net.ts";
import { Ripple } from "./ripple.ts";
import type { Store } from "./store.ts";
import { type TabNews, Tabs, type TabWorld } from "./tabs.ts";

// While the app is in sight it asks at least this often, ripple or not.
const WHILE_VISIBLE_MS = 60_000;

export interface LinkWorld {
	store: Store;
	log: Log;
	net: Net;
	tabs: TabWorld;
	auth: Auth;
	status(status: SyncStatus): void;
	/** The number of waiting or refused entries may have changed. */
	counts(): void;
	/** Entries of the household came in. */
	changed(): void;
	wiped(reason: string): void;
	/** Empties what this phone keeps beside the log. Before the log, so that a wipe
	 * that was cut off is done again. */
	emptying(): Promise<void>;
}

export class Link {
	#world: LinkWorld;
	#carrier: Carrier;
	#tabs: Tabs;
	#ripple: Ripple;
	/** The owner is taking this phone out, and has exported or given up what is on it. */
	leaving = false;

	constructor(world: LinkWorld) {
		this.#world = world;
		this.#tabs = new Tabs(world.tabs, (news) => this.#hear(news));
		this.#carrier = new Carrier({
			step: (event) => world.log.step(event),
			post: (path, body, token) => world.net.post(path, body, token),
			token: () => world.auth.token(),
			forgetToken: () => world.auth.forget(),
			load: (ids) => world.store.load(ids),
			store: (effect) => this.#store(effect),
			stored: (effect) => this.#stored(effect),
			status: (status) => {
				world.status(status);
				this.#tabs.tell({ kind: "status", status });
			},
			changed: () => {
				world.changed();
				this.#tabs.tell({ kind: "changed" });
			},
			wipe: (reason) => this.wipe(reason, keepsLog(reason) && !this.leaving),
			now: Date.now,
			rand: Math.random,
			setTimer: (run, ms) => setTimeout(run, ms),
			clearTimer: (timer) => clearTimeout(timer as ReturnType<typeof setTimeout>),
		});
		this.#ripple = new Ripple({
			open: async (signal) =>
				fetch("/api/v1/stream", {
					headers: {
						Accept: "text/event-stream",
						Authorization: `Bearer ${await world.auth.token()}`,
					},
					cache: "no-store",
					credentials: "omit",
					signal,
				}),
			refused: () => world.auth.forget(),
			heard: () => void this.#carrier.tell({ kind: "ripple" }),
			sleep,
			rand: Math.random,
		});
	}

	/** Starts to talk, or to listen to the tab that does. The log is open. */
	start(): void {
		this.#tabs.run((waited) => void this.#lead(waited));
		document.addEventListener("visibilitychange", () => this.#seen());
		window.addEventListener("online", () => this.#tell("online"));
		setInterval(() => {
			if (document.visibilityState === "visible") this.#tell("visible");
		}, WHILE_VISIBLE_MS);
	}

	async #lead(waited: boolean): Promise<void> {
		// A follower's engine has not seen what the leader's exchanges taught.
		if (waited) await this.#world.log.reopen("this tab leads now");
		await this.#carrier.start();
		if (document.visibilityState === "visible") this.#ripple.start();
	}

	#seen(): void {
		if (document.visibilityState === "visible") {
			this.#tell("visible");
			if (this.#tabs.leading) this.#ripple.start();
		} else {
			this.#ripple.stop();
		}
	}

	#tell(kind: "visible" | "online" | "saved" | "tap"): void {
		if (this.#tabs.leading) void this.#carrier.tell({ kind });
		else if (kind === "tap") this.#tabs.tell({ kind });
	}

	/** Entries or roster texts were made in this tab; the engine has been given them. */
	saved(): void {
		this.#tabs.tell({ kind: "saved" });
		this.#tell("saved");
	}

	/** Somebody asked for an exchange. */
	tap(): void {
		this.#tell("tap");
	}

	/** The engine died. */
	died(): void {
		this.#carrier.pause();
	}

	/** It was opened anew. */
	reopened(): void {
		if (this.#tabs.leading) void this.#carrier.start();
	}

	async wipe(reason: string, keepLog: boolean): Promise<void> {
		this.#carrier.pause();
		this.#ripple.stop();
		await this.#world.emptying().catch(() => {});
		await this.#world.store.wipe(reason, keepLog);
		this.#tabs.tell({ kind: "wiped", reason });
		this.#world.wiped(reason);
	}

	#range: { first: number; last: number } | null = null;

	async #store(effect: StoreEffect): Promise<void> {
		this.#range = await this.#world.store.apply(effect, Date.now());
	}

	async #stored(effect: StoreEffect): Promise<void> {
		this.#world.log.stored(this.#range);
		this.#world.counts();
		// This tab's engine has let go of what was refused; the others' must too.
		if (effect.refused?.length) this.#tabs.tell({ kind: "refused" });
	}

	#hear(news: TabNews): void {
		const { log } = this.#world;
		switch (news.kind) {
			case "saved":
				void log.catchUp().then(() => {
					this.#world.changed();
					this.#tell("saved");
				});
				this.#world.counts();
				return;
			case "changed":
				void log.catchUp().then(() => this.#world.changed());
				this.#world.counts();
				return;
			case "refused":
				void log.reopen("an entry was not accepted");
				this.#world.counts();
				return;
			case "status":
				if (!this.#tabs.leading) this.#world.status(news.status as SyncStatus);
				// It follows every store, and a store may have marked entries as shared.
				this.#world.counts();
				return;
			case "tap":
				if (this.#tabs.leading) void this.#carrier.tell({ kind: "tap" });
				return;
			case "wiped":
				this.#world.store.lock();
				this.#world.wiped(news.reason);
				return;
			default:
				news satisfies never;
		}
	}
}

/** What lies on a lost phone is in strange hands. A phone that was removed or
 * left may hold entries that nobody else has. */
function keepsLog(reason: string): boolean {
	return reason !== "lost";
}

function sleep(ms: number, signal: AbortSignal): Promise<void> {
	return new Promise((resolve) => {
		const timer = setTimeout(resolve, ms);
		signal.addEventListener("abort", () => {
			clearTimeout(timer);
			resolve();
		});
	});
}
