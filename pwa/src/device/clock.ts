// What time it is. The phone's clock may be wrong; the server's answers say by
// how much, for this session only. The newest time the household has seen is
// kept as a floor for stamps (the engine applies it) and never moves the day.

/** From here on a clock is worth a warning: two minutes and more is beyond
 * what any answer's delay explains (our choice). */
const WRONG_MS = 2 * 60_000;

export class Clock {
	#local: () => number;
	#offset: number | null = null;
	#best = Number.POSITIVE_INFINITY;

	constructor(local: () => number = Date.now) {
		this.#local = local;
	}

	/** Learns from an answer: the server's time and when it was asked and heard.
	 * The quickest answer is the best one, unless the phone's clock was set. */
	learn(server: number, asked: number, heard: number): void {
		const trip = Math.max(0, heard - asked);
		const offset = server - (asked + trip / 2);
		const moved = this.#offset !== null && Math.abs(offset - this.#offset) > trip + this.#best;
		if (trip > this.#best && !moved) return;
		this.#best = trip;
		this.#offset = Math.round(offset);
	}

	now(): number {
		return this.#local() + (this.#offset ?? 0);
	}

	/** How far the phone's clock is ahead (+) or behind (−), in ms; 0 when it is
	 * right or nothing is known. Without a server, a clock before `floor`
	 * (the newest time the household has seen) must be behind. */
	wrong(floor: number): number {
		if (this.#offset !== null) return Math.abs(this.#offset) > WRONG_MS ? -this.#offset : 0;
		const behind = floor - this.#local();
		return behind > WRONG_MS ? -behind : 0;
	}
}

/** The calendar day of an instant in an IANA zone, e.g. "2026-11-25". An
 * unknown zone falls back to the phone's own. */
export function dayIn(zone: string, ms: number): string {
	return dayFormat(zone).format(ms);
}

const formats = new Map<string, Intl.DateTimeFormat>();

function dayFormat(zone: string): Intl.DateTimeFormat {
	let found = formats.get(zone);
	if (!found) {
		// The Swedish locale writes ISO 8601 days.
		const parts = { year: "numeric", month: "2-digit", day: "2-digit" } as const;
		try {
			found = new Intl.DateTimeFormat("sv-SE", zone ? { ...parts, timeZone: zone } : parts);
		} catch {
			found = new Intl.DateTimeFormat("sv-SE", parts);
		}
		formats.set(zone, found);
	}
	return found;
}

/** An instant with this phone's offset, RFC 3339, to the second. */
export function instant(ms: number): string {
	const date = new Date(ms);
	const minutes = -date.getTimezoneOffset();
	const sign = minutes < 0 ? "-" : "+";
	const two = (n: number) => String(Math.trunc(n)).padStart(2, "0");
	const local = new Date(ms + minutes * 60_000).toISOString().slice(0, 19);
	return `${local}${sign}${two(Math.abs(minutes) / 60)}:${two(Math.abs(minutes) % 60)}`;
}
