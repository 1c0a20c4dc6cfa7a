// Taking phones out of the household. A revocation is signed here and counts
// wherever it is heard; the server refuses the phone from the moment it hears it.

import type { DeviceView } from "../types.gen.ts";
import { Refused } from "./invites.ts";
import { signRoster } from "./keys.ts";
import type { KeyRow } from "./layout.ts";
import type { Answer } from "./net.ts";

/** Why somebody else's phone is removed: a lost one wipes itself at its next contact. */
export type Why = "lost" | "removed";

export interface RemovingWorld {
	key(): Promise<KeyRow>;
	/** The engine's text for a roster operation. */
	signText(arg: string): Promise<string>;
	/** Keeps a signed text, so that the next exchange pushes it. */
	believe(texts: string[]): Promise<void>;
	/** Posts to the server with this phone's token. */
	post(path: string, body: unknown): Promise<Answer>;
}

/** Whether no phone could let another in once this one is gone. */
export function lastKeeper(devices: DeviceView[]): boolean {
	// The console has no member: it is no phone that somebody carries.
	const keepers = devices.filter((d) => d.role === "keeper" && d.member !== "" && !d.gone);
	return keepers.length === 1 && keepers[0]?.mine === true;
}

// A hint of no log: the answer brings no entries.
const ELSEWHERE = { inst: "none", n: 0 };

// The sum of an empty set: whoever shows it is told the whole roster.
const NOTHING = { n: 0, s: "0".repeat(32) };

export class Removing {
	#world: RemovingWorld;

	constructor(world: RemovingWorld) {
		this.#world = world;
	}

	/** Removes another phone. What it granted stays; needs no connection. */
	async remove(device: string, why: Why): Promise<void> {
		await this.#world.believe([await this.#signed(device, why)]);
	}

	/** Tells the server that this phone leaves. It is told at once and nothing is
	 * kept here: an engine that heard of it would wipe the phone before the
	 * others knew. Rejects unless the server says that it holds the word. */
	async farewell(): Promise<void> {
		const { device } = await this.#world.key();
		const word = await this.#signed(device, "left");
		const answer = await this.#world.post("/api/v1/exchange", {
			after: ELSEWHERE,
			ops: [],
			root: NOTHING,
			roster: [word],
			rosterRoot: NOTHING,
		});
		const heard = (answer.data as { roster?: unknown } | undefined)?.roster;
		if (answer.status !== 200 || !Array.isArray(heard) || !heard.includes(word)) {
			throw new Refused(answer);
		}
	}

	async #signed(to: string, why: Why | "left"): Promise<string> {
		const { key, signText } = this.#world;
		return signRoster(await key(), await signText(JSON.stringify({ kind: "revoke", to, why })));
	}
}
