// The scanner: a label before the camera opens its tray, with the server off
// too; other codes are named; without a camera the code is typed.

import assert from "node:assert/strict";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { cameraFlags, film } from "./camera.ts";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { broken } from "./rules.ts";
import { comes, labels } from "./steps.ts";

let server: Server;
let dir: string;
let shown: string; // the camera's film
let browser: Browser;

before(async () => {
	dir = await mkdtemp(join(tmpdir(), "trayside-camera-"));
	shown = join(dir, "film.y4m");
	server = await startServer("demo");
	browser = await openBrowser(cameraFlags(shown));
});

after(async () => {
	await browser?.close();
	await server?.end();
	await rm(dir, { recursive: true, force: true });
});

/** Counts what the page asks of the camera. */
function watchCamera(): void {
	const seen = { asked: 0, tracks: [] as MediaStreamTrack[] };
	Object.assign(globalThis, { cameraSeen: seen });
	const { mediaDevices } = navigator;
	const ask = mediaDevices.getUserMedia.bind(mediaDevices);
	mediaDevices.getUserMedia = async (wanted) => {
		seen.asked++;
		const stream = await ask(wanted);
		seen.tracks.push(...stream.getTracks());
		return stream;
	};
}

const camera = (phone: TestPhone) =>
	phone.page.evaluate(() => {
		const { cameraSeen } = globalThis as unknown as {
			cameraSeen: { asked: number; tracks: MediaStreamTrack[] };
		};
		return { asked: cameraSeen.asked, live: cameraSeen.tracks.map((t) => t.readyState) };
	});

/** As when another app comes to the front: headless pages are always in sight. */
const outOfSight = (phone: TestPhone, hidden: boolean) =>
	phone.page.evaluate((is) => {
		Object.defineProperty(document, "hidden", { value: is, configurable: true });
		document.dispatchEvent(new Event("visibilitychange"));
	}, hidden);

/** Gives the camera a light, which Chromium's has not; a worn one does not obey. */
function giveLight(worn: boolean): void {
	const track = MediaStreamTrack.prototype;
	const can = track.getCapabilities;
	track.getCapabilities = function () {
		return { ...can.call(this), torch: true } as MediaTrackCapabilities;
	};
	const lit: unknown[] = [];
	Object.assign(globalThis, { lit });
	track.applyConstraints = async (wanted) => {
		if (worn) throw new DOMException("no light", "NotReadableError");
		lit.push((wanted?.advanced?.[0] as { torch?: boolean } | undefined)?.torch);
	};
}

async function readerIsKept(phone: TestPhone): Promise<void> {
	await phone.page.waitForFunction(async () => {
		const cache = await caches.open("trayside-later");
		return (await cache.keys()).length === 2;
	});
}

scene("a label at an angle opens its tray, with the server off too", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.context.grantPermissions(["camera"], { origin: server.url });
	await phone.context.addInitScript(watchCamera);
	await phone.joinDemo("Scanning phone");
	await phone.waitForSync("Everything shared");
	const trays = await labels(phone);
	const [bin, code] = [...trays][0] ?? [];
	assert.ok(bin && code, "Today names a tray that takes food");
	await film(shown, `${server.url.toUpperCase().replace("HTTP:", "http:")}/T/${code}`);

	await phone.page
		.getByRole("navigation", { name: "Places" })
		.getByRole("link", { name: "Scan" })
		.click();
	await phone.page.waitForURL(`**/t/${code}`);
	await phone.page.locator("tray-screen h1").waitFor();
	await comes("the camera", () => camera(phone), { asked: 1, live: ["ended"] });

	await readerIsKept(phone);
	await phone.readyForOffline();
	phone.expectNoAnswer = true;
	await server.stop();
	await phone.coldStart("/scan");
	await phone.page.waitForURL(`**/t/${code}`);
	await phone.page.locator("tray-screen h1").waitFor();
	await comes("the camera", () => camera(phone), { asked: 1, live: ["ended"] });
	await server.start();
});

scene("codes that open no tray are named and left alone", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.context.grantPermissions(["camera"], { origin: server.url });
	await phone.context.addInitScript(watchCamera);
	await phone.joinDemo("Curious phone");
	const notice = phone.page.locator(".notice");
	await film(shown, "https://OTHER.EXAMPLE/T/7K3M9QX2C");
	await phone.go("/scan");
	await notice.getByText("A label of another household: it leads to other.example").waitFor();
	assert.deepEqual(await broken(phone), []);
	assert.equal(new URL(phone.page.url()).pathname, "/scan");

	await film(shown, "WIFI:T:WPA;S:Attic;P:invented;;");
	await phone.go("/scan");
	await notice.getByText("the sign-in of a Wi-Fi network").waitFor();

	// The camera is let go when the app is out of sight, and comes back with it.
	await outOfSight(phone, true);
	await comes("the camera", () => camera(phone), { asked: 1, live: ["ended"] });
	await outOfSight(phone, false);
	await phone.page.waitForFunction(() => {
		const video = document.querySelector("video");
		return video?.srcObject instanceof MediaStream && video.readyState > 1;
	});
	await comes("the camera", () => camera(phone), { asked: 2, live: ["ended", "live"] });
	await phone.page.getByRole("link", { name: "Type the code" }).click();
	await phone.page.getByLabel("Code under the label").waitFor();
});

scene("the light is offered where the camera has one, and goes out with it", 120, async () => {
	await film(shown, "WIFI:T:WPA;S:Attic;P:invented;;");
	const made = async (worn?: boolean) => {
		const phone = await TestPhone.make(browser, server.url);
		await phone.context.grantPermissions(["camera"], { origin: server.url });
		await phone.context.addInitScript(watchCamera);
		if (worn !== undefined) await phone.context.addInitScript(giveLight, worn);
		await phone.joinDemo("Phone in the dark");
		await phone.go("/scan");
		await phone.page.locator(".notice").waitFor(); // the camera runs
		return { phone, light: phone.page.getByRole("button", { name: "Light", exact: true }) };
	};
	const plain = await made();
	assert.equal(await plain.light.count(), 0, "no light, no button");

	const { phone, light } = await made(false);
	const is = (on: boolean) => light.and(phone.page.locator(`[aria-pressed=${on}]`)).waitFor();
	await is(false);
	await light.press("Enter");
	await is(true);
	assert.deepEqual(await broken(phone), []);
	await light.click();
	await is(false);
	const asked = () => phone.page.evaluate(() => (globalThis as unknown as { lit: boolean[] }).lit);
	assert.deepEqual(await asked(), [true, false]);
	await light.click();
	await is(true);
	await phone.page.getByRole("link", { name: "Type the code" }).click();
	await comes("the camera", () => camera(phone), { asked: 1, live: ["ended"] });

	const worn = await made(true);
	await worn.light.click();
	await worn.phone.page.locator(".notice").waitFor();
	assert.equal(await worn.light.getAttribute("aria-pressed"), "false", "what it says is true");
});

scene("without a camera the code is typed", 60, async () => {
	const plain = await openBrowser();
	try {
		const phone = await TestPhone.make(plain, server.url);
		await phone.joinDemo("Phone without a camera");
		const code = [...(await labels(phone)).values()][0] ?? "";
		await phone.go("/scan");
		await phone.page.getByRole("heading", { name: "No camera was found" }).waitFor();
		assert.deepEqual(await broken(phone), []);
		// By keyboard alone: from the page's start, two stops on.
		await phone.page.getByRole("button", { name: "Try again" }).press("Enter");
		await phone.page.getByRole("heading", { name: "No camera was found" }).waitFor();
		await phone.page.getByRole("link", { name: "Type the code" }).press("Enter");
		await phone.page.getByLabel("Code under the label").fill(code.toLowerCase());
		await phone.page.keyboard.press("Enter");
		await phone.page.locator("tray-screen h1").waitFor();
	} finally {
		await plain.close();
	}
});
