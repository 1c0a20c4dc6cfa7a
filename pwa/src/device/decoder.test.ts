import assert from "node:assert/strict";
import { test } from "node:test";
import { browserDetector, chooseDecoder, type Decoder, nearest } from "./decoder.ts";
import type { Seen } from "./reader.ts";

const video = { videoWidth: 400, videoHeight: 200 } as HTMLVideoElement;
const fromReader: Seen[] = [{ text: "by the reader", x: 0, y: 0 }];

/** A browser's detector that lists `formats` and detects by `detect`. */
function detectorClass(
	formats: string[] | Error,
	detect: () => Promise<unknown[]> = async () => [],
): unknown {
	return class {
		readonly options: { formats: string[] };
		constructor(options: { formats: string[] }) {
			this.options = options;
		}
		static async getSupportedFormats(): Promise<string[]> {
			if (formats instanceof Error) throw formats;
			return formats;
		}
		detect = detect;
	};
}

/** Counts how often a reader is made and closed. */
function readers() {
	const seen = { made: 0, closed: 0 };
	const make = (): Decoder => {
		seen.made++;
		return {
			read: async () => fromReader,
			close: () => {
				seen.closed++;
			},
		};
	};
	return { seen, make };
}

test("the browser's detector reads where it knows square codes", async () => {
	const { seen, make } = readers();
	const found = detectorClass(["ean_13", "qr_code"], async () => [
		{ rawValue: "label", boundingBox: { x: 250, y: 25, width: 100, height: 50 } },
	]);
	const decoder = await chooseDecoder(found, make);
	assert.deepEqual(await decoder.read(video), [{ text: "label", x: 0.25, y: -0.25 }]);
	decoder.close();
	assert.deepEqual(seen, { made: 0, closed: 0 });
});

for (const [name, found] of [
	["there is no detector", undefined],
	["the detector has no service behind it", detectorClass([])],
	["the detector knows other codes only", detectorClass(["ean_13"])],
	["asking the detector fails", detectorClass(new Error("not now"))],
] as const) {
	test(`the reader reads where ${name}`, async () => {
		assert.equal(await browserDetector(found), undefined);
		const { seen, make } = readers();
		const decoder = await chooseDecoder(found, make);
		assert.deepEqual(await decoder.read(video), fromReader);
		decoder.close();
		assert.deepEqual(seen, { made: 1, closed: 1 });
	});
}

test("the reader takes over for good where the detector's service dies", async () => {
	let asked = 0;
	const { seen, make } = readers();
	const found = detectorClass(["qr_code"], async () => {
		asked++;
		throw new Error("service unavailable");
	});
	const decoder = await chooseDecoder(found, make);
	assert.deepEqual(await decoder.read(video), fromReader);
	assert.deepEqual(await decoder.read(video), fromReader);
	assert.equal(asked, 1);
	decoder.close();
	assert.deepEqual(seen, { made: 1, closed: 1 });
});

test("of two labels in the picture the one in the middle counts", () => {
	const at = (text: string, x: number, y: number): Seen => ({ text, x, y });
	assert.equal(nearest([at("left", -0.4, 0), at("middle", 0.1, -0.1)])?.text, "middle");
	assert.equal(nearest([]), undefined);
});
