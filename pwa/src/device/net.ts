// Talking to the household's server: one request, one outcome that says whether
// anybody answered, and if nobody did, why as far as a page can tell.

import { vouched } from "./vouch.ts";

/** An answer. `data` is its JSON, undefined when it was none: then something
 * else answered for the server, such as a network's sign-in page. */
export interface Answer {
	status: number;
	body: string;
	data: unknown;
	/** Seconds from Retry-After, 0 without. */
	retryAfter: number;
	/** The body, where it is a PDF; it has no text then. */
	file?: Blob;
}

export type NoAnswer = "offline" | "unreachable" | "certificate" | "timeout";

export class NetFault extends Error {
	override name = "NetFault";
	readonly reason: NoAnswer;
	constructor(reason: NoAnswer, cause?: unknown) {
		super(`no answer: ${reason}`, { cause });
		this.reason = reason;
	}
}

// A phone on one bar of signal is slow, not gone; a request that takes longer
// than this holds up the next try (our choice).
const TIMEOUT_MS = 30_000;

export interface NetWorld {
	fetch: typeof fetch;
	online(): boolean;
	/** Asks the browser to look for an update of the service worker; its refusal
	 * is the one place where a page learns of a bad certificate. */
	probe(): Promise<void>;
}

export class Net {
	#world: NetWorld;
	/** Hears the server's time of each answer: server, asked, heard, in ms. */
	onTime: (server: number, asked: number, heard: number) => void = () => {};

	constructor(world: NetWorld) {
		this.#world = world;
	}

	get(path: string, token = ""): Promise<Answer> {
		return this.#ask("GET", path, undefined, token);
	}

	post(path: string, body: unknown, token = ""): Promise<Answer> {
		const text = typeof body === "string" ? body : JSON.stringify(body);
		return this.#ask("POST", path, text, token);
	}

	delete(path: string, token: string): Promise<Answer> {
		return this.#ask("DELETE", path, undefined, token);
	}

	async #ask(method: string, path: string, body: string | undefined, token: string) {
		const headers: Record<string, string> = { Accept: "application/json" };
		if (body !== undefined) headers["Content-Type"] = "application/json";
		if (token) headers.Authorization = `Bearer ${token}`;
		const asked = Date.now();
		try {
			const answer = await this.#world.fetch(path, {
				method,
				headers,
				...(body === undefined ? {} : { body }),
				cache: "no-store",
				credentials: "omit",
				redirect: "follow",
				signal: AbortSignal.timeout(TIMEOUT_MS),
			});
			const pdf = answer.headers.get("Content-Type") === "application/pdf";
			const file = pdf ? { file: await answer.blob() } : {};
			const text = pdf ? "" : await answer.text();
			const data = parse(text, answer.headers.get("Content-Type"));
			const now = (data as { now?: unknown } | undefined)?.now;
			if (typeof now === "number") this.onTime(now, asked, Date.now());
			return await vouched({
				status: answer.status,
				body: text,
				data,
				retryAfter: seconds(answer.headers.get("Retry-After")),
				...file,
			});
		} catch (why) {
			throw new NetFault(await this.why(why), why);
		}
	}

	/** Why nobody answered. */
	async why(cause: unknown): Promise<NoAnswer> {
		if ((cause as Error).name === "TimeoutError") return "timeout";
		if (!this.#world.online()) return "offline";
		try {
			await this.#world.probe();
			return "unreachable";
		} catch (why) {
			return /ssl|certificate/i.test(String(why)) ? "certificate" : "unreachable";
		}
	}
}

function parse(text: string, type: string | null): unknown {
	if (text === "" || !/^application\/([\w.+-]+\+)?json\b/.test(type ?? "")) return undefined;
	try {
		return JSON.parse(text);
	} catch {
		return undefined;
	}
}

function seconds(header: string | null): number {
	const value = Number(header ?? 0);
	return Number.isFinite(value) && value > 0 ? value : 0;
}

/** The stable code of a problem answer (RFC 9457), "" if there is none. */
export function problemCode(answer: Answer): string {
	const code = (answer.data as { code?: unknown } | null | undefined)?.code;
	return typeof code === "string" ? code : "";
}
