// The live ripple: a stream of server-sent events that say "there is news" and
// nothing else. It is read by fetch, because an EventSource can't carry a token.
// It is a convenience: without it the next exchange brings the same.

export interface RippleWorld {
	/** Opens the stream; rejects without an answer. */
	open(signal: AbortSignal): Promise<Response>;
	/** A 401: the token is used up. */
	refused(): void;
	heard(): void;
	sleep(ms: number, signal: AbortSignal): Promise<void>;
	rand(): number;
}

// The server sends a comment every 15 s; three of them missed and a stream is
// half open.
const SILENCE_MS = 45_000;
// People stand at the bin while a server restarts or a signal comes back: the
// first tries come within a second each, for some minutes, so that two phones
// agree within two. After that the wait doubles to five minutes. All with full
// jitter (our choice).
const SOON_MS = 1_000;
const SOON_TRIES = 300;
const LAST_MS = 300_000;

/** How long to wait at most before the n-th try in a row, from 1. */
const waitBefore = (tries: number): number =>
	Math.min(SOON_MS * 2 ** Math.max(0, Math.min(tries - SOON_TRIES, 16)), LAST_MS);

export class Ripple {
	#world: RippleWorld;
	#abort: AbortController | null = null;

	constructor(world: RippleWorld) {
		this.#world = world;
	}

	/** Listens until stopped; a second start changes nothing. */
	start(): void {
		if (this.#abort) return;
		this.#abort = new AbortController();
		void this.#listen(this.#abort.signal);
	}

	stop(): void {
		this.#abort?.abort();
		this.#abort = null;
	}

	async #listen(signal: AbortSignal): Promise<void> {
		let tries = 0;
		while (!signal.aborted) {
			tries++;
			try {
				if (await this.#once(signal)) tries = 1;
			} catch {
				// No answer, or the stream broke: both are met by trying again.
			}
			if (signal.aborted) return;
			await this.#world.sleep(this.#world.rand() * waitBefore(tries), signal).catch(() => {});
		}
	}

	/** Reads one stream to its end; true if it was one. */
	async #once(outer: AbortSignal): Promise<boolean> {
		const inner = new AbortController();
		const end = () => inner.abort();
		outer.addEventListener("abort", end, { once: true });
		try {
			return await this.#read(inner);
		} finally {
			outer.removeEventListener("abort", end);
			inner.abort();
		}
	}

	async #read(inner: AbortController): Promise<boolean> {
		const answer = await this.#world.open(inner.signal);
		if (answer.status === 401) this.#world.refused();
		const type = answer.headers.get("Content-Type") ?? "";
		if (!answer.ok || !answer.body || !type.startsWith("text/event-stream")) return false;
		// News may have come between the last exchange and now.
		this.#world.heard();
		const lines = new LineReader((line) => {
			if (line === "event: ripple" || line === "event:ripple") this.#world.heard();
		});
		const reader = answer.body.getReader();
		let quiet: ReturnType<typeof setTimeout> | undefined;
		try {
			for (;;) {
				quiet = setTimeout(() => inner.abort(), SILENCE_MS);
				const { done, value } = await reader.read();
				clearTimeout(quiet);
				if (done) return true;
				lines.push(value);
			}
		} finally {
			clearTimeout(quiet);
		}
	}
}

/** Cuts a byte stream into lines, wherever its chunks end. */
export class LineReader {
	#decoder = new TextDecoder();
	#rest = "";
	#line: (line: string) => void;

	constructor(line: (line: string) => void) {
		this.#line = line;
	}

	push(chunk: Uint8Array): void {
		const parts = (this.#rest + this.#decoder.decode(chunk, { stream: true })).split("\n");
		this.#rest = parts.pop() ?? "";
		for (const part of parts) this.#line(part.endsWith("\r") ? part.slice(0, -1) : part);
	}
}
