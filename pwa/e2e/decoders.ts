// Compares decoders of square codes on the frames that cmd/dev/scan made: share
// of labels read, time, and what each would cost a phone to fetch. Prints the
// table of `go run ./cmd/dev bench scan`. The first argument is the folder with
// the frames, gozxing's readings, and the files to be weighed.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { join } from "node:path";
import { brotliCompressSync, constants } from "node:zlib";
import jsQR from "jsqr";
import { prepareZXingModule, readBarcodes } from "zxing-wasm/reader";

interface Frame {
	file: string;
	condition: string;
	text: string;
	width: number;
	height: number;
}

interface Reading {
	read: boolean;
	ms: number;
}

type Picture = { data: Uint8ClampedArray; width: number; height: number };
type Decode = (picture: Picture) => Promise<string | undefined>;

const [dir] = process.argv.slice(2);
assert.ok(dir, "say where the frames are; `go run ./cmd/dev bench scan` does");
const frames = JSON.parse(await readFile(join(dir, "frames.json"), "utf8")) as Frame[];

/** The same settings as the app's reader. */
async function zxing(): Promise<Decode> {
	const wasm = createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");
	const bytes = await readFile(wasm);
	prepareZXingModule({ overrides: { wasmBinary: bytes.buffer as ArrayBuffer } });
	return async (picture) => {
		const found = await readBarcodes(picture as ImageData, {
			formats: ["QRCode"],
			tryHarder: true,
			maxNumberOfSymbols: 4,
		});
		return found.find((one) => one.isValid)?.text;
	};
}

const javaScript: Decode = async ({ data, width, height }) =>
	jsQR(data, width, height, { inversionAttempts: "dontInvert" })?.data;

async function picture({ file, width, height }: Frame): Promise<Picture> {
	const grey = await readFile(join(dir as string, file));
	const data = new Uint8ClampedArray(4 * width * height);
	for (const [i, v] of grey.entries()) {
		data.fill(v, 4 * i, 4 * i + 3);
		data[4 * i + 3] = 255;
	}
	return { data, width, height };
}

async function readAll(decode: Decode): Promise<Reading[]> {
	const readings: Reading[] = [];
	for (const frame of frames) {
		const seen = await picture(frame);
		const start = performance.now();
		const text = await decode(seen);
		readings.push({ read: text === frame.text, ms: performance.now() - start });
	}
	return readings;
}

async function brotli(file: string): Promise<number> {
	const body = await readFile(join(dir as string, file));
	return brotliCompressSync(body, {
		params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGWIN]: 24 },
	}).length;
}

const kB = (bytes: number): string => `${Math.ceil(bytes / 1000)} kB`;
const share = (all: Reading[]): string =>
	`${Math.round((100 * all.filter((one) => one.read).length) / all.length)} %`;
const middle = (all: Reading[]): number =>
	all.map((one) => one.ms).sort((a, b) => a - b)[Math.floor(all.length / 2)] ?? 0;

const gozxing = JSON.parse(await readFile(join(dir, "gozxing.json"), "utf8")) as Reading[];
const candidates = [
	{
		name: "zxing-wasm",
		readings: await readAll(await zxing()),
		cost: `${kB((await brotli("reader.js")) + (await brotli("reader.wasm")))}, later`,
	},
	{
		name: "gozxing in the engine",
		readings: gozxing,
		cost: `${kB((await brotli("engine-with.wasm")) - (await brotli("engine.wasm")))}, first visit`,
	},
	{
		name: "jsQR",
		readings: await readAll(javaScript),
		cost: `${kB(await brotli("jsqr.js"))}, later`,
	},
];
const conditions = [...new Set(frames.map((frame) => frame.condition))];
const rows = [
	["reads", ...candidates.map((one) => one.name)],
	["---", ...candidates.map(() => "---")],
	...conditions.map((condition) => [
		condition,
		...candidates.map(({ readings }) =>
			share(readings.filter((_, i) => frames[i]?.condition === condition)),
		),
	]),
	["all", ...candidates.map(({ readings }) => share(readings))],
	["ms a frame, middle", ...candidates.map(({ readings }) => middle(readings).toFixed(1))],
	["to fetch", ...candidates.map(({ cost }) => cost)],
];
for (const row of rows) console.log(`| ${row.join(" | ")} |`);
