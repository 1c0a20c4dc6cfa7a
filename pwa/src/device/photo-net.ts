// Pictures to and from the server. Every request has one outcome, and none throws.

import { hex } from "./bytes.ts";

/** What came of a request: `later` is worth another try, after so many seconds at
 * least; `refused` is not, and says why by the server's code. */
export type Outcome<T> =
	| { kind: "done"; value: T }
	| { kind: "none" } // no such picture there
	| { kind: "later"; after: number }
	| { kind: "refused"; code: string };

export interface PhotoNetWorld {
	fetch: typeof fetch;
	/** Throws when nobody answers or the key is refused. */
	token(): Promise<string>;
	forgetToken(): void;
}

const PATH = "/api/v1/photos";

// A poor cellar connection of 200 kbit/s takes 20 s for a picture.
const TIMEOUT_MS = 90_000;

export class PhotoNet {
	readonly #world: PhotoNetWorld;

	constructor(world: PhotoNetWorld) {
		this.#world = world;
	}

	/** Hashes of what the server keeps. */
	list(): Promise<Outcome<string[]>> {
		return this.#ask("GET", PATH, undefined, async (answer) => {
			const { photos } = (await answer.json()) as { photos?: unknown };
			if (!Array.isArray(photos)) throw new TypeError("no list of photos");
			return photos as string[];
		});
	}

	/** A picture's bytes, whole: they have the hash that was asked for. */
	get(hash: string): Promise<Outcome<ArrayBuffer>> {
		return this.#ask("GET", `${PATH}/${hash}`, undefined, async (answer) => {
			const bytes = await answer.arrayBuffer();
			if ((await hashOf(bytes)) !== hash) throw new TypeError("another picture came");
			return bytes;
		});
	}

	put(hash: string, bytes: ArrayBuffer): Promise<Outcome<null>> {
		return this.#ask("PUT", `${PATH}/${hash}`, bytes, async () => null);
	}

	remove(hash: string): Promise<Outcome<null>> {
		return this.#ask("DELETE", `${PATH}/${hash}`, undefined, async () => null);
	}

	async #ask<T>(
		method: string,
		path: string,
		body: ArrayBuffer | undefined,
		read: (answer: Response) => Promise<T>,
	): Promise<Outcome<T>> {
		try {
			let answer = await this.#send(method, path, body);
			if (answer.status === 401) {
				this.#world.forgetToken(); // its fifteen minutes were over
				answer = await this.#send(method, path, body);
			}
			if (answer.ok) return { kind: "done", value: await read(answer) };
			if (answer.status === 404 && method === "GET") return { kind: "none" };
			return await refusal(answer);
		} catch {
			// Nobody answered, something else answered for the server, or the key was
			// refused, which the exchange of entries deals with.
			return { kind: "later", after: 0 };
		}
	}

	async #send(method: string, path: string, body: ArrayBuffer | undefined): Promise<Response> {
		const token = await this.#world.token();
		return this.#world.fetch(path, {
			method,
			headers: {
				Authorization: `Bearer ${token}`,
				...(body ? { "Content-Type": "image/jpeg" } : {}),
			},
			...(body ? { body } : {}),
			cache: "no-store",
			credentials: "omit",
			signal: AbortSignal.timeout(TIMEOUT_MS),
		});
	}
}

/** What the server says of this very picture is final; everything else may pass. */
const final = new Set(["too-large", "unsupported-media", "photo-hash", "photo-private"]);

async function refusal(answer: Response): Promise<Outcome<never>> {
	const { code } = (await answer.json().catch(() => ({}))) as { code?: unknown };
	if (typeof code === "string" && final.has(code)) return { kind: "refused", code };
	const after = Number(answer.headers.get("Retry-After") ?? 0);
	return { kind: "later", after: Number.isFinite(after) ? after : 0 };
}

/** SHA-256 as 64 hexadecimal digits. */
export async function hashOf(bytes: BufferSource): Promise<string> {
	return hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
}
