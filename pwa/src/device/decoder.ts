// Reading square codes off the camera's picture: by the browser where it can,
// else by a reader of our own in a worker, so that the picture never stutters.
// DEVELOPERS.md, "Decisions", has the table this one was chosen by.

import type { FromReader, Seen, ToReader } from "./reader.ts";

export interface Decoder {
	/** All codes in the picture of this moment. Rejects when it can't read at all. */
	read(video: HTMLVideoElement): Promise<Seen[]>;
	close(): void;
}

// What the browser's own detector looks like (W3C, "Accelerated Shape
// Detection in Images"); the DOM types don't have it.
interface Detected {
	rawValue: string;
	boundingBox: { x: number; y: number; width: number; height: number };
}
export interface Detector {
	detect(source: HTMLVideoElement): Promise<Detected[]>;
}
export interface DetectorClass {
	new (options: { formats: string[] }): Detector;
	getSupportedFormats(): Promise<string[]>;
}

const QR = "qr_code";

/** The browser's detector, if it is there and reads square codes. Some phones
 * have the class and no service behind it: their list is empty. */
export async function browserDetector(found: unknown): Promise<Detector | undefined> {
	if (typeof found !== "function") return undefined;
	const Class = found as unknown as DetectorClass;
	try {
		const formats = await Class.getSupportedFormats();
		return formats.includes(QR) ? new Class({ formats: [QR] }) : undefined;
	} catch {
		return undefined;
	}
}

/** The browser's detector as long as it works, else the reader. */
export async function chooseDecoder(found: unknown, makeReader: () => Decoder): Promise<Decoder> {
	const detector = await browserDetector(found);
	if (!detector) return makeReader();
	let instead: Decoder | undefined;
	return {
		async read(video) {
			if (instead) return instead.read(video);
			try {
				const all = await detector.detect(video);
				return all.map((one) => seenBy(one, video));
			} catch {
				// "Barcode detection service unavailable": it will not come back.
				instead = makeReader();
				return instead.read(video);
			}
		},
		close() {
			instead?.close();
		},
	};
}

function seenBy({ rawValue, boundingBox: box }: Detected, video: HTMLVideoElement): Seen {
	const offset = (at: number, size: number, of: number) => (at + size / 2) / (of || 1) - 0.5;
	return {
		text: rawValue,
		x: offset(box.x, box.width, video.videoWidth),
		y: offset(box.y, box.height, video.videoHeight),
	};
}

/** The code nearest to the middle: trays stand close, and two labels may be in
 * the picture. */
export function nearest(seen: Seen[]): Seen | undefined {
	const far = (one: Seen) => Math.hypot(one.x, one.y);
	return seen.reduce<Seen | undefined>(
		(best, one) => (best && far(best) <= far(one) ? best : one),
		undefined,
	);
}

// What was measured; a phone that gives more than it was asked for is cut down.
const SIDE = 1280;

/** The reader in its worker. It fetches its own program, which the service
 * worker keeps. */
export class ReaderDecoder implements Decoder {
	#worker: Worker;
	#canvas = document.createElement("canvas");
	#answer: { done(seen: Seen[]): void; failed(why: Error): void } | undefined;
	#dead: Error | undefined;

	constructor(worker: Worker) {
		this.#worker = worker;
		worker.onmessage = ({ data }: MessageEvent<FromReader>) => {
			if ("died" in data) this.#die(data.died);
			else this.#answer?.done(data.seen);
		};
		worker.onerror = () => this.#die("its script could not be loaded");
	}

	#die(why: string): void {
		this.#dead = new Error(`reader: ${why}`);
		this.#answer?.failed(this.#dead);
	}

	read(video: HTMLVideoElement): Promise<Seen[]> {
		if (this.#dead) return Promise.reject(this.#dead);
		const { videoWidth: w, videoHeight: h } = video;
		const scale = Math.min(1, SIDE / Math.max(w, h, 1));
		const width = Math.round(w * scale);
		const height = Math.round(h * scale);
		const canvas = this.#canvas;
		const pen = canvas.getContext("2d", { willReadFrequently: true, alpha: false });
		if (!pen || width === 0 || height === 0) return Promise.resolve([]);
		if (canvas.width !== width) canvas.width = width;
		if (canvas.height !== height) canvas.height = height;
		pen.drawImage(video, 0, 0, width, height);
		const pixels = pen.getImageData(0, 0, width, height).data;
		return new Promise((done, failed) => {
			this.#answer = { done, failed };
			const message: ToReader = { width, height, pixels: pixels.buffer as ArrayBuffer };
			this.#worker.postMessage(message, [message.pixels]);
		});
	}

	close(): void {
		this.#worker.terminate();
	}
}
