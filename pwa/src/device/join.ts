// Joining a household, as a machine: an invite's code goes to the server with
// this phone's public key, a keeper compares two numbers, and the phone is in.
// What has been sent is kept, so a reload in the middle goes on where it was.

import { base64url } from "./bytes.ts";
import type { KeyRow, Meta } from "./layout.ts";
import { type Answer, NetFault, type NoAnswer, problemCode } from "./net.ts";

export type JoinFault =
	| NoAnswer
	| "portal"
	| "invite-unknown"
	| "invite-expired"
	| "invite-used"
	| "too-many"
	| "declined"
	| "storage"
	| "other";

export type JoinState =
	| { at: "ask"; fault: JoinFault | null; detail: string }
	| { at: "sending" }
	| { at: "waiting"; match: string; fault: JoinFault | null }
	| { at: "joined"; role: string };

/** What the server says of a join. */
export interface JoinAnswer {
	join: string;
	match: string;
	state: "waiting" | "granted";
	household: string;
	dev: string;
	member: string;
	role: Meta["role"];
	roster: string[] | null;
}

/** A code from a link, or the short one that people type. */
export type Code = { code: string } | { short: string };

interface Pending {
	join: string;
	match: string;
	name: string;
}

export interface JoinWorld {
	key(): Promise<KeyRow>;
	post(path: string, body: unknown): Promise<Answer>;
	get(path: string): Promise<Answer>;
	/** The join under way, kept in storage. */
	pending(): Promise<Pending | undefined>;
	keepPending(pending: Pending | null): Promise<void>;
	/** Keeps who this phone is and whom it believes, durably. */
	joined(meta: Partial<Meta>, roster: string[]): Promise<void>;
	changed(state: JoinState): void;
	sleep(ms: number): Promise<void>;
}

// Somebody stands beside the keeper and waits: two seconds feel live and cost
// the server little (our choice).
const POLL_MS = 2_000;

export class Joining {
	#world: JoinWorld;
	#state: JoinState = { at: "ask", fault: null, detail: "" };
	#polling = false;

	constructor(world: JoinWorld) {
		this.#world = world;
	}

	get state(): JoinState {
		return this.#state;
	}

	/** Goes on with a join that was under way before a reload. */
	async resume(): Promise<void> {
		const pending = await this.#world.pending();
		if (pending && this.#state.at === "ask") await this.#wait(pending);
	}

	/** Sends a code. Whatever fails, the person is back where they typed it. */
	async send(code: Code, name: string): Promise<void> {
		if (this.#state.at === "sending") return;
		this.#set({ at: "sending" });
		try {
			const key = await this.#world.key();
			const body = { ...code, key: base64url(key.publicKey), device: name };
			const answer = await this.#world.post("/api/v1/join", body);
			const joined = read(answer);
			if (!joined) {
				this.#fail(answer);
			} else if (joined.state === "granted") {
				await this.#done(joined, name);
			} else {
				const pending = { join: joined.join, match: joined.match, name };
				await this.#world.keepPending(pending);
				void this.#wait(pending);
			}
		} catch (why) {
			this.#set({ at: "ask", fault: reasonOf(why), detail: String(why) });
		}
	}

	/** Gives up waiting for a keeper. */
	async cancel(): Promise<void> {
		await this.#world.keepPending(null);
		this.#polling = false;
		this.#set({ at: "ask", fault: null, detail: "" });
	}

	async #wait(pending: Pending): Promise<void> {
		this.#polling = true;
		this.#set({ at: "waiting", match: pending.match, fault: null });
		while (this.#polling) {
			await this.#world.sleep(POLL_MS);
			if (!this.#polling) return;
			try {
				const answer = await this.#world.get(`/api/v1/join/${encodeURIComponent(pending.join)}`);
				const joined = read(answer);
				if (joined?.state === "granted") {
					this.#polling = false;
					await this.#done(joined, pending.name);
				} else if (!joined && answer.data !== undefined && gone(answer.status)) {
					await this.#world.keepPending(null);
					this.#polling = false;
					this.#fail(answer);
				} else {
					const fault = joined ? null : answer.data === undefined ? "portal" : "other";
					this.#set({ at: "waiting", match: pending.match, fault });
				}
			} catch (why) {
				if (this.#polling) {
					this.#set({ at: "waiting", match: pending.match, fault: reasonOf(why) });
				}
			}
		}
	}

	async #done(joined: JoinAnswer, deviceName: string): Promise<void> {
		const { household, dev: device, member, role } = joined;
		await this.#world.joined({ household, device, member, role, deviceName }, joined.roster ?? []);
		this.#set({ at: "joined", role });
	}

	#fail(answer: Answer): void {
		this.#set({ at: "ask", fault: faultOf(answer), detail: problemCode(answer) });
	}

	#set(state: JoinState): void {
		this.#state = state;
		this.#world.changed(state);
	}
}

function read(answer: Answer): JoinAnswer | null {
	const data = answer.data as Partial<JoinAnswer> | undefined;
	if (answer.status < 200 || answer.status > 299 || !data?.state || !data.join) return null;
	return data as JoinAnswer;
}

/** A join the server will never speak of again. */
const gone = (status: number): boolean => status === 404 || status === 409 || status === 410;

function faultOf(answer: Answer): JoinFault {
	if (answer.data === undefined) return "portal";
	if (answer.status === 429) return "too-many";
	const code = problemCode(answer);
	switch (code) {
		case "invite-unknown":
		case "invite-expired":
		case "invite-used":
			return code;
		case "join-declined":
			return "declined";
		default:
			return "other";
	}
}

function reasonOf(why: unknown): JoinFault {
	if (why instanceof NetFault) return why.reason;
	return (why as Error).name === "StoreFault" ? "storage" : "other";
}

/** The code of a join link, from its fragment; "" if there is none. */
export function codeOf(hash: string): string {
	const code = hash.replace(/^#/, "");
	return /^[A-Za-z0-9_-]{4,}$/.test(code) ? code : "";
}

/** True where a phone must be installed before it joins: on an iPhone or iPad
 * the app on the home screen and the browser keep separate storage. */
export function mustInstallFirst(nav: {
	userAgent: string;
	maxTouchPoints: number;
	standalone: boolean;
}): boolean {
	const iPad = /Macintosh/.test(nav.userAgent) && nav.maxTouchPoints > 1;
	return !nav.standalone && (iPad || /iPhone|iPad|iPod/.test(nav.userAgent));
}
