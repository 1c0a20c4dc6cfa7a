// What passes between the page and the reader's worker.

/** One code in the picture; x and y say how far its middle is from the
 * picture's, in widths and heights of the picture. */
export interface Seen {
	text: string;
	x: number;
	y: number;
}

/** One picture, four bytes a pixel. */
export interface ToReader {
	width: number;
	height: number;
	pixels: ArrayBuffer;
}

export type FromReader = { seen: Seen[] } | { died: string };
