// A kitchen scale and a bed's thermometer over Bluetooth, against Chromium's emulated adapter.

import assert from "node:assert/strict";
import { after, afterEach, before, beforeEach } from "node:test";
import type { Browser } from "playwright-core";
import { answerList, bluetoothFlags, FakeBluetooth } from "./bluetooth.ts";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { comes } from "./steps.ts";

const WEIGHT_SCALE = 0x181d;
const FEATURE = 0x2a9e;
const MEASUREMENT = 0x2a9d;
const ENVIRONMENTAL_SENSING = 0x181a;
const TEMPERATURE = 0x2a6e;

let server: Server;
let browser: Browser;
before(async () => {
	server = await startServer("demo");
});
after(async () => {
	await server?.end();
});
beforeEach(async () => {
	browser = await openBrowser(bluetoothFlags); // each with an adapter of its own
});
afterEach(async () => {
	await browser?.close();
});

interface Tells {
	measured?: { readValue(): Promise<unknown> } | undefined;
}

/** The emulation cannot let a device tell of a new value by itself. The page's
 * own handle is kept, so that the test can read it: the same event follows. */
async function keepHandle(phone: TestPhone): Promise<void> {
	await phone.context.addInitScript((id) => {
		const service = (
			globalThis as unknown as {
				BluetoothRemoteGATTService: {
					prototype: { getCharacteristic(id: number): Promise<unknown> };
				};
			}
		).BluetoothRemoteGATTService.prototype;
		const get = service.getCharacteristic;
		service.getCharacteristic = async function (asked) {
			const found = await get.call(this, asked);
			if (asked === id) (globalThis as Tells).measured = found as Tells["measured"];
			return found;
		};
	}, MEASUREMENT);
}

scene("a scale's weight at rest is typed, what is no weight is refused", 120, async () => {
	const weight = { id: MEASUREMENT, bytes: [0, 0, 0], tells: true };
	const fake = await FakeBluetooth.on(browser);
	const scale = await fake.add({
		name: "Kitchen scale",
		service: WEIGHT_SCALE,
		has: [{ id: FEATURE, bytes: [0x30, 0, 0, 0] }, weight], // steps of 10 g
	});
	const phone = await TestPhone.make(browser, server.url);
	await keepHandle(phone);
	await phone.joinDemo("Kitchen phone");
	await phone.waitForSync("Everything shared");
	await phone.go("/weigh");
	const { page } = phone;
	const press = (name: string) => page.getByRole("button", { name, exact: true }).click();
	const row = page.locator(".scalerow");
	const shows = async (...bytes: number[]) => {
		weight.bytes = bytes;
		await page.evaluate(() => (globalThis as Tells).measured?.readValue());
	};
	const figure = (value: string) =>
		page.locator(".read b").getByText(value, { exact: true }).waitFor();

	await press("Scale");
	assert.deepEqual(await broken(phone), []);
	await answerList(page, true);
	await press("Connect a scale");
	await row.getByText("It measures in steps of 10 g").waitFor();

	await shows(0, 0x42, 0); // 330 g
	await row.getByText("330 g, not still yet").waitFor();
	await row.getByText("330 g, still").waitFor();
	await figure("330");
	assert.equal(await page.locator(".inbowl .sum").count(), 0, "nothing is added by itself");
	await page.getByRole("button", { name: "Coffee grounds" }).click();
	await press("Add");
	await page.locator(".inbowl .sum", { hasText: "330 g" }).waitFor();

	await shows(0, 0xff, 0xff);
	await row.getByText("could not measure").waitFor();
	await shows(0, 0xfe, 0xff);
	await row.getByText("less than nothing").waitFor();
	await shows(0xf2, 1, 2, 3, 4);
	await row.getByText("not of the standard").waitFor();
	await figure("0");
	// The keypad is there all the time.
	for (const key of "120") await press(key);
	await press("Add");
	await page.locator(".inbowl .sum", { hasText: "450 g" }).waitFor();
	assert.deepEqual(await broken(phone), []);

	await scale.gone();
	await row.getByText("The scale went away").waitFor();
	await row.getByRole("button", { name: "Connect again" }).waitFor();
});

scene("a list that is closed changes nothing", 60, async () => {
	const fake = await FakeBluetooth.on(browser);
	await fake.add({ name: "Other scale", service: WEIGHT_SCALE, has: [] });
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Kitchen phone");
	await phone.go("/weigh");
	const { page } = phone;
	const connect = page.getByRole("button", { name: "Connect a scale" });
	await page.getByRole("button", { name: "Scale", exact: true }).click();
	const list = await answerList(page, false);
	await connect.click();
	await list.answered;
	await connect.and(page.locator(":enabled")).waitFor();
	await page.getByText("For scales with the standard").waitFor();
});

scene("a thermometer's figure stands in the look, and one that fails leaves it", 120, async () => {
	const temperature = { id: TEMPERATURE, bytes: [0x00, 0x80] }; // "not known"
	const fake = await FakeBluetooth.on(browser);
	await fake.add({ name: "Bed probe", service: ENVIRONMENTAL_SENSING, has: [temperature] });
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Cellar phone");
	await phone.waitForSync("Everything shared");
	await phone.go("/look");
	const { page } = phone;
	await page.locator("look-screen li", { hasText: "Fern" }).getByRole("link").click();
	const ask = page.getByRole("button", { name: "Read the Bluetooth thermometer" });
	const field = page.getByLabel("Degrees, °C");

	await answerList(page, true);
	await ask.click();
	await page.getByText("The thermometer shows no value yet").waitFor();
	assert.equal(await field.inputValue(), "");

	temperature.bytes = [0x64, 0x08]; // 21.48 °C
	await answerList(page, true);
	await ask.click();
	await page.getByRole("status").getByText("Bed probe").waitFor();
	await comes("the figure", () => field.inputValue(), "21.5");
	assert.deepEqual(await broken(phone), []);

	await answerList(page, false);
	await ask.click();
	await page.getByText("No thermometer was chosen").waitFor();
	assert.equal(await field.inputValue(), "21.5");
	await page.getByRole("button", { name: "Save this look" }).click();
	await page.getByRole("heading", { name: "What this changed" }).waitFor();
	await phone.go("/timeline");
	await page.locator(".entries > li", { hasText: /bed 21\.5.°C/ }).waitFor();
});
