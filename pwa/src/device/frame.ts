// A frame is what crosses the border to the engine, one byte array each way:
// four bytes, big-endian, the length of a JSON header; the header; a raw body.

export interface Frame {
	header: unknown;
	body: Uint8Array;
}

const LENGTH = 4;
const none = new Uint8Array(0);

export function encodeFrame(header: unknown, body: Uint8Array = none): Uint8Array {
	const json = new TextEncoder().encode(JSON.stringify(header));
	const frame = new Uint8Array(LENGTH + json.length + body.length);
	new DataView(frame.buffer).setUint32(0, json.length);
	frame.set(json, LENGTH);
	frame.set(body, LENGTH + json.length);
	return frame;
}

/** Throws a RangeError or SyntaxError that names what is wrong: a broken frame
 * is a bug of the app or a dying engine, never something a person typed. */
export function decodeFrame(frame: Uint8Array): Frame {
	if (frame.length < LENGTH) {
		throw new RangeError(`frame of ${frame.length} bytes: shorter than its length field`);
	}
	const length = new DataView(frame.buffer, frame.byteOffset, frame.length).getUint32(0);
	if (LENGTH + length > frame.length) {
		throw new RangeError(`frame of ${frame.length} bytes: header says ${length}`);
	}
	const json = new TextDecoder("utf-8", { fatal: true }).decode(
		frame.subarray(LENGTH, LENGTH + length),
	);
	return { header: JSON.parse(json), body: frame.slice(LENGTH + length) };
}
