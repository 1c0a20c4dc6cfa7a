// Who this phone is. A key pair is made once and can't leave the browser; the
// phone's name is the hash of the public half; a signed nonce buys a token of
// fifteen minutes. Logging never waits for a token.

import { base64url, idOf } from "./bytes.ts";
import type { KeyRow } from "./layout.ts";
import { type Answer, type Net, problemCode } from "./net.ts";

const CURVE = { name: "ECDSA", namedCurve: "P-256" } as const;
const SIGNING = { name: "ECDSA", hash: "SHA-256" } as const;

export interface KeyStore {
	key(): Promise<KeyRow | undefined>;
	saveKey(row: KeyRow): Promise<void>;
}

/** This phone's key, made and kept on the first call. */
export async function deviceKey(store: KeyStore): Promise<KeyRow> {
	const held = await store.key();
	if (held) return held;
	const pair = await crypto.subtle.generateKey(CURVE, false, ["sign", "verify"]);
	// WebCrypto exports P-256 "raw" as the uncompressed point (SEC 1, 2.3.3).
	const publicKey = new Uint8Array(await crypto.subtle.exportKey("raw", pair.publicKey));
	const row = { privateKey: pair.privateKey, publicKey, device: await idOf(publicKey) };
	await store.saveKey(row);
	return row;
}

/** Signs text: base64url of the 64-byte r||s, as WebCrypto makes it. */
export async function sign(key: KeyRow, text: string): Promise<string> {
	const data = new TextEncoder().encode(text);
	return base64url(new Uint8Array(await crypto.subtle.sign(SIGNING, key.privateKey, data)));
}

/** A roster operation as it travels: its text, this phone's key and signature. */
export async function signRoster(key: KeyRow, op: string): Promise<string> {
	return JSON.stringify({ op, key: base64url(key.publicKey), sig: await sign(key, op) });
}

/** The server refused the key: it doesn't know this phone, or no longer. */
export class AuthRefused extends Error {
	override name = "AuthRefused";
	readonly answer: Answer;
	constructor(answer: Answer) {
		super(`token refused: ${answer.status} ${problemCode(answer)}`);
		this.answer = answer;
	}
}

/** Keeps a token at hand; it lives in memory only. */
export class Auth {
	#net: Net;
	#key: () => Promise<KeyRow>;
	#household: () => string;
	#roster: () => Promise<string[]>;
	#token = "";
	#asking: Promise<string> | null = null;

	constructor(
		net: Net,
		key: () => Promise<KeyRow>,
		household: () => string,
		roster: () => Promise<string[]>,
	) {
		this.#net = net;
		this.#key = key;
		this.#household = household;
		this.#roster = roster;
	}

	/** A token; a new one after `forget`. Throws NetFault or AuthRefused. */
	token(): Promise<string> {
		if (this.#token) return Promise.resolve(this.#token);
		this.#asking ??= this.#ask().finally(() => {
			this.#asking = null;
		});
		return this.#asking;
	}

	forget(): void {
		this.#token = "";
	}

	async #ask(): Promise<string> {
		let answer = await this.#sign({});
		// A server put back from an old copy may not have heard of this phone: who
		// let it in is signed, so it can be shown.
		if (problemCode(answer) === "unknown-device") {
			answer = await this.#sign({ roster: await this.#roster() });
		}
		this.#token = member(answer, "token");
		return this.#token;
	}

	async #sign(more: { roster?: string[] }): Promise<Answer> {
		const key = await this.#key();
		const dev = key.device;
		const nonce = member(await this.#net.post("/api/v1/nonce", { dev }), "nonce");
		const sig = await sign(key, `trayside-token:${this.#household()}:${nonce}`);
		return this.#net.post("/api/v1/token", { dev, nonce, sig, ...more });
	}
}

function member(answer: Answer, name: string): string {
	const value = (answer.data as Record<string, unknown> | undefined)?.[name];
	if (answer.status !== 200 || typeof value !== "string") throw new AuthRefused(answer);
	return value;
}
