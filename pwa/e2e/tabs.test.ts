// Two tabs of one phone: both save, one of them talks to the server, and when it
// is closed the other takes over.

import { after, before } from "node:test";
import type { Browser } from "playwright-core";
import { openBrowser, type Server, scene, startServer, TestPhone } from "./harness.ts";
import { comes, feed, labels } from "./steps.ts";

let server: Server;
let browser: Browser;
before(async () => {
	server = await startServer("demo");
	browser = await openBrowser();
});
after(async () => {
	await browser?.close();
	await server?.end();
});

scene("two tabs share one log, and a closed one is replaced", 120, async () => {
	const phone = await TestPhone.make(browser, server.url);
	await phone.joinDemo("Kitchen phone");
	const codes = await labels(phone);
	const [cellar = "", porch = ""] = [codes.get("Cellar"), codes.get("Porch")];
	await phone.go(`/t/${cellar}`);
	await phone.waitForSync("Everything shared");
	const leader = phone.page;

	await phone.openTab(`/t/${porch}`);
	const fed = await feed(phone, 1);
	await phone.waitForSync("Everything shared");
	// The first tab hears of it without a reload and without the server's help.
	await leader.bringToFront();
	await leader.getByRole("link", { name: "More" }).click();
	await leader.getByRole("link", { name: /Timeline/ }).click();
	await leader.getByText(fed).first().waitFor();

	await leader.close();
	await phone.page.bringToFront();
	await feed(phone, 2);
	await phone.waitForSync("Everything shared");
	const twice = () =>
		phone.page.evaluate(async () => {
			const open = indexedDB.open("trayside");
			const db = await new Promise<IDBDatabase>((resolve) => {
				open.onsuccess = () => resolve(open.result);
			});
			const all = db.transaction("ops").objectStore("ops").getAll();
			const rows = await new Promise<{ id: string; known: number }[]>((resolve) => {
				all.onsuccess = () => resolve(all.result);
			});
			db.close();
			return {
				doubles: rows.length - new Set(rows.map((row) => row.id)).size,
				waiting: rows.filter((row) => row.known === 0).length,
			};
		});
	await comes("entries of the one log", twice, { doubles: 0, waiting: 0 });
});
