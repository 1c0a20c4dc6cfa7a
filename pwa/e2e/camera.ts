// A camera for a browser that has none: Chromium shows a film of one picture, a
// printed square held at an angle under uneven light.

import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { prepareZXingModule, writeBarcode } from "zxing-wasm/writer";

const WIDTH = 640;
const HEIGHT = 480;
const FRAMES = 4;

/** What a browser is started with so that its camera shows the film in `file`.
 * The file is read when a page asks for the camera, so it can change before. */
export const cameraFlags = (file: string): string[] => [
	"--use-fake-device-for-media-stream",
	`--use-file-for-fake-video-capture=${file}`,
];

/** Writes the film: `text` as a square, turned and leaning back. */
export async function film(file: string, text: string): Promise<void> {
	const frame = photograph(await modules(text));
	const colour = Buffer.alloc((WIDTH * HEIGHT) / 2, 128); // grey: no colour at all
	const parts: Buffer[] = [Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420jpeg\n`)];
	for (let i = 0; i < FRAMES; i++) parts.push(Buffer.from("FRAME\n"), frame, colour);
	await writeFile(file, Buffer.concat(parts));
}

/** The square's modules by row, true for dark, its quiet zone left out. */
async function modules(text: string): Promise<boolean[][]> {
	const wasm = createRequire(import.meta.url).resolve("zxing-wasm/writer/zxing_writer.wasm");
	const bytes = await readFile(wasm);
	prepareZXingModule({ overrides: { wasmBinary: bytes.buffer as ArrayBuffer } });
	const { symbol, error } = await writeBarcode(text, { format: "QRCode", options: "ecLevel=H" });
	assert.ok(symbol, `no square could be drawn of ${text}: ${error}`);
	const { data, width, height } = symbol;
	return Array.from({ length: height }, (_, y) =>
		Array.from({ length: width }, (_, x) => data[y * width + x] === 0),
	);
}

/** A pinhole camera before a plane: for each pixel the place on the label it
 * looks at. */
function photograph(square: boolean[][]): Buffer {
	const n = square.length;
	const turn = 0.35; // radians in the picture
	const lean = 0.6; // radians away from the camera
	const focal = 700;
	const far = focal * (n / 210); // so that the square is about 210 px wide
	const out = Buffer.alloc(WIDTH * HEIGHT);
	for (let py = 0; py < HEIGHT; py++) {
		for (let px = 0; px < WIDTH; px++) {
			const rx = (px - WIDTH / 2 - 25) / focal;
			const ry = (py - HEIGHT / 2 + 15) / focal;
			// Where the ray meets the leaning plane.
			const t = far / (1 - ry * Math.tan(lean));
			const u = rx * t;
			const v = (ry * t) / Math.cos(lean);
			const x = u * Math.cos(turn) + v * Math.sin(turn) + n / 2;
			const y = -u * Math.sin(turn) + v * Math.cos(turn) + n / 2;
			const light = 0.6 + (0.4 * px) / WIDTH;
			out[py * WIDTH + px] = Math.round(shade(square, x, y) * light);
		}
	}
	return out;
}

/** Paper with a quiet zone of four modules, on a dark tray. */
function shade(square: boolean[][], x: number, y: number): number {
	const n = square.length;
	if (x < -4 || y < -4 || x > n + 4 || y > n + 4) return 60;
	return square[Math.floor(y)]?.[Math.floor(x)] ? 30 : 225;
}
