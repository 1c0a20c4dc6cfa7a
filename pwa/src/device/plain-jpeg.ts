// What stands in a JPEG beside its picture. WebKit writes Exif of its own into what
// a canvas gives (reported 2020 as everestpipkin/image-scrubber, issue 44): nothing
// of the household's is in it, but the server can't tell it from a camera's and
// takes no picture with any.

// ITU-T T.81, annex B: a marker is FF and a byte; a segment's length of two bytes
// counts itself; the picture's own bytes follow the start of scan.
const SCAN = 0xda;
const APP0 = 0xe0;
const APP15 = 0xef;
const COMMENT = 0xfe;

/** Application segments that belong to the picture: JFIF, the colour profile, and
 * how colours were turned (Adobe's, without which some come out wrong). */
const needed = new Set([APP0, 0xe2, 0xee]);

/** The JPEG without remarks: no Exif, XMP, IPTC or comment. What can't be read as
 * JPEG comes back as it is. */
export function plainJpeg(bytes: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer> {
	const kept = [bytes.subarray(0, 2)];
	let at = 2;
	while (at + 4 <= bytes.length && bytes[at] === 0xff) {
		const marker = bytes[at + 1] ?? 0;
		if (marker === SCAN) break;
		const end = marker === 0xff ? at + 1 : at + 2 + lengthAt(bytes, at + 2);
		const remark = (marker >= APP0 && marker <= APP15) || marker === COMMENT;
		if (!remark || needed.has(marker)) kept.push(bytes.subarray(at, end));
		at = end;
	}
	kept.push(bytes.subarray(at));
	return joined(kept);
}

const lengthAt = (bytes: Uint8Array, at: number): number =>
	((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);

function joined(parts: Uint8Array[]): Uint8Array<ArrayBuffer> {
	const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
	let at = 0;
	for (const part of parts) {
		whole.set(part, at);
		at += part.length;
	}
	return whole;
}
