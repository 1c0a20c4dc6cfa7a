// The reader's worker: finds square codes in one picture at a time. It is fetched
// only by browsers that have no detector of their own.

import { prepareZXingModule, readBarcodes } from "zxing-wasm/reader";
import type { FromReader, ToReader } from "./device/reader.ts";

declare const self: DedicatedWorkerGlobalScope;

const say = (message: FromReader): void => self.postMessage(message);

// The library would fetch its program from a server of its maker.
prepareZXingModule({ overrides: { locateFile: () => READER_WASM_URL } });

self.onmessage = async ({ data }: MessageEvent<ToReader>) => {
	const { width, height, pixels } = data;
	try {
		const found = await readBarcodes(new ImageData(new Uint8ClampedArray(pixels), width, height), {
			formats: ["QRCode"],
			tryHarder: true,
			maxNumberOfSymbols: 4,
		});
		say({
			seen: found
				.filter((one) => one.isValid)
				.map(({ text, position: p }) => ({
					text,
					x: (p.topLeft.x + p.bottomRight.x) / 2 / width - 0.5,
					y: (p.topLeft.y + p.bottomRight.y) / 2 / height - 0.5,
				})),
		});
	} catch (why) {
		say({ died: String(why) });
	}
};
