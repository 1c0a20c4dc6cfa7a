// Joining, codes that open nothing, and networks that answer for the server.

import assert from "node:assert/strict";
import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { startProxy } from "./proxy.ts";
import { comes, draftsKept, feed, invite, labels } from "./steps.ts";

let demo: Server;
let browser: Browser;
before(async () => {
	demo = await startServer("demo");
	browser = await openBrowser();
});
after(async () => {
	await browser?.close();
	await demo?.end();
});

scene(
	"the first keeper names a household from the terminal's link, and is asked once",
	120,
	async () => {
		const server = await startServer("serve");
		try {
			const phone = await TestPhone.make(browser, server.url);
			await phone.joinBy(server.link, "Kitchen phone");
			await phone.page.getByLabel("Name of the household").fill("Mill Yard");
			await draftsKept(phone.page);
			await phone.page.reload();
			const typed = phone.page.getByLabel("Name of the household");
			await comes("what was typed", () => typed.inputValue(), "Mill Yard");
			await phone.page.getByLabel("Your name").fill("Ines");
			await phone.page.getByLabel("pounds and ounces").check();
			await phone.page.getByRole("button", { name: "Save and begin" }).click();
			await phone.page.getByText("No bin is written down yet").waitFor();
			await phone.go("/household");
			await phone.page.getByRole("heading", { level: 1, name: "Mill Yard" }).waitFor();
			await phone.page.getByText("Ines").first().waitFor();
			await phone.waitForSync("Everything shared");

			// The link was good for one phone.
			const late = await TestPhone.make(browser, server.url);
			late.expectRefusals = true;
			await late.joinBy(server.link, "Late phone");
			await late.page.getByText("This invite was used already").waitFor();
			assert.equal(await late.page.getByLabel("Name of this phone").inputValue(), "Late phone");
		} finally {
			for (const each of browser.contexts()) await each.close(); // before the server, or they complain
			await server.end();
		}
	},
);

scene("a phone joins by the code that is typed", 120, async () => {
	const keeper = await TestPhone.make(browser, demo.url);
	await keeper.joinDemo("Kitchen phone");
	await keeper.waitForSync("Everything shared");
	const phone = await TestPhone.make(browser, demo.url);
	await invite(keeper, "Odell", phone, "Porch phone", "code");
	await phone.waitForSync("Everything shared");
});

scene("a wrong code says so and keeps what was typed", 120, async () => {
	const phone = await TestPhone.make(browser, demo.url);
	phone.expectRefusals = true;
	await phone.go("/join");
	await phone.page.getByLabel("Code", { exact: true }).fill("ZZZZ-ZZZZ");
	await phone.page.getByRole("button", { name: "Join", exact: true }).click();
	await phone.page.getByText("No invite has this code").waitFor();
	assert.equal(await phone.page.getByLabel("Code", { exact: true }).inputValue(), "ZZZZ-ZZZZ");
});

scene("codes that open no tray say what is wrong and take another", 120, async () => {
	const phone = await TestPhone.make(browser, demo.url);
	await phone.joinDemo("Kitchen phone");
	const codes = await labels(phone);
	const cellar = codes.get("Cellar") ?? "";
	await phone.go("/t/nonsense");
	await phone.page.getByText("That is no label code").first().waitFor();
	await phone.page.getByLabel("Code on the label").fill(cellar);
	await phone.page.getByRole("button", { name: "Open tray" }).click();
	await phone.page.getByRole("button", { name: /^Fed / }).waitFor();
});

scene("a label opened before joining is the first page after it", 120, async () => {
	const keeper = await TestPhone.make(browser, demo.url);
	await keeper.joinDemo("Kitchen phone");
	const code = (await labels(keeper)).get("Porch") ?? "";
	const phone = await TestPhone.make(browser, demo.url);
	await phone.go(`/t/${code}`);
	await phone.page.getByText(`You opened the label ${code}`).waitFor();
	await phone.page.getByRole("button", { name: "Look at the demo household" }).click();
	await phone.page.getByRole("button", { name: /^Fed / }).waitFor();
});

scene("an iPhone's browser is told to install first and joins nothing by itself", 120, async () => {
	const userAgent =
		"Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Mobile/15E148 Safari/604.1";
	const phone = await TestPhone.make(browser, demo.url, { userAgent });
	await phone.go("/join#AAAAAAAAAAAAAAAAAAAAAA");
	await phone.page.getByRole("heading", { name: "Install first, then join" }).waitFor();
	assert.equal(await phone.page.getByRole("button", { name: "Join", exact: true }).count(), 0);
	assert.equal(new URL(phone.page.url()).hash, "");
});

scene(
	"a network's sign-in page is told from the household, and nothing is lost to it",
	120,
	async () => {
		const proxy = await startProxy(demo.url);
		try {
			const phone = await TestPhone.make(browser, proxy.url);
			await phone.joinDemo("Guest network phone");
			const code = (await labels(phone)).get("Cellar") ?? "";
			await phone.readyForOffline();
			await phone.waitForSync("Everything shared");
			proxy.mode = "portal";
			await phone.go(`/t/${code}`);
			await feed(phone);
			await phone.waitForSync("This network wants a sign-in first");
			await phone.waitForSync("1 entry waits on this phone");
			proxy.mode = "pass";
			await phone.go("/household");
			await phone.page.getByRole("button", { name: "Exchange now" }).click();
			await phone.waitForSync("Everything shared");
		} finally {
			await proxy.end();
		}
	},
);
