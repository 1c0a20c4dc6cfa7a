// The README's picture: Today and the tray that takes food, side by side. The
// first argument is the file it goes to.

import assert from "node:assert/strict";
import { stat } from "node:fs/promises";
import { openBrowser, startServer, TestPhone } from "./harness.ts";
import { labels, still, workedOut } from "./steps.ts";

// A README is read over slow connections, too, and git keeps every version.
const MOST_BYTES = 120_000;

// px; a small phone, so that two of them stand side by side on a page
const WIDTH = 360;
const HEIGHT = 700;

async function take(file: string): Promise<void> {
	const server = await startServer("demo");
	const browser = await openBrowser();
	try {
		const phone = await TestPhone.make(browser, server.url, { width: WIDTH, height: HEIGHT });
		await phone.joinDemo("Kitchen phone");
		await phone.waitForSync("Everything shared");
		const [code] = (await labels(phone)).values();
		const shoot = async (path: string, ready: string) => {
			await phone.go(path);
			await phone.page.locator(ready).first().waitFor();
			await workedOut(phone.page);
			await still(phone.page);
			return (await phone.page.screenshot({ animations: "disabled" })).toString("base64");
		};
		const pictures = [await shoot("/", ".bins"), await shoot(`/t/${code}`, ".numeral.big")];
		const sheet = await browser.newPage({ viewport: { width: 2 * WIDTH + 24, height: HEIGHT } });
		const images = pictures.map((png) => `<img alt="" src="data:image/png;base64,${png}">`);
		await sheet.setContent(
			`<body style="margin:0;display:flex;justify-content:space-between;background:#fff">${images.join("")}`,
		);
		await sheet.screenshot({ path: file });
	} finally {
		await browser.close();
		await server.end();
	}
	const { size } = await stat(file);
	assert.ok(size <= MOST_BYTES, `${file} has ${size} bytes, more than ${MOST_BYTES}`);
	console.log(`${file}: ${size} bytes`);
}

const [file] = process.argv.slice(2);
assert.ok(file, "say where the picture goes: go run ./cmd/dev shots --readme");
await take(file);
