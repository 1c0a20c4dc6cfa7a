// A seeded source of unevenness: the same bin and tray are drawn the same way
// on every visit and on every phone.

/** Gives the next number in [0, 1). */
export type Rand = () => number;

/** A generator seeded by text. Xorshift on 32 bits (Marsaglia 2003, "Xorshift
 * RNGs"), started from the FNV-1a hash of the seed (Fowler, Noll and Vo); good
 * enough for drawings, for nothing else. */
export function randFrom(seed: string): Rand {
	let state = 0x811c9dc5;
	for (let i = 0; i < seed.length; i++) {
		state = Math.imul(state ^ seed.charCodeAt(i), 0x01000193);
	}
	state = state >>> 0 || 1; // xorshift never leaves zero
	return () => {
		state ^= state << 13;
		state ^= state >>> 17;
		state ^= state << 5;
		state >>>= 0;
		return state / 4294967296;
	};
}

/** A number between low and high. */
export const between = (rand: Rand, low: number, high: number): number =>
	low + (high - low) * rand();
