// How a picture is made small enough to send from a cellar: first fewer pixels,
// then coarser ones. What encodes is handed in, so that the rules can be tested.

/** A picture's longest side, px: sharp on a phone held sideways (our choice). */
export const LONGEST = 1600;

/** What a picture should weigh, bytes, and what it may: the server takes no more. */
export const WISHED = 400_000;
export const MOST = 500_000;

export interface Size {
	width: number;
	height: number;
}

/** The size with the longest side at most so long, in the same shape; a small
 * picture stays as it is. Each side has at least one pixel. */
export function fit({ width, height }: Size, longest: number): Size {
	const scale = Math.min(1, longest / Math.max(width, height));
	const side = (px: number) => Math.max(1, Math.round(px * scale));
	return { width: side(width), height: side(height) };
}

// Side and JPEG quality, tried in this order until the picture is light enough.
// Leaf litter and castings are all edges and weigh far more than a face.
const steps: [longest: number, quality: number][] = [
	[LONGEST, 0.82],
	[LONGEST, 0.7],
	[LONGEST, 0.55],
	[1280, 0.6],
	[1024, 0.55],
	[800, 0.5],
];

export type Encode = (size: Size, quality: number) => Promise<Uint8Array<ArrayBuffer>>;

/** The picture, light enough, with its size. Rejects if nothing made it so. */
export async function shrink(
	size: Size,
	encode: Encode,
): Promise<Size & { bytes: Uint8Array<ArrayBuffer> }> {
	let last = 0;
	for (const [longest, quality] of steps) {
		const small = fit(size, longest);
		const bytes = await encode(small, quality);
		last = bytes.length;
		if (last <= WISHED) return { ...small, bytes };
		if (longest === 800 && last <= MOST) return { ...small, bytes };
	}
	throw new Error(`shrink: the picture still weighs ${last} bytes at its smallest`);
}
