import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openKept, startServer, TestPhone } from "./harness.ts";
import { entriesKept, median } from "./measure.ts";
import { labels } from "./steps.ts";
const folder = await mkdtemp(join(tmpdir(), "trayside-bench-"));
const server = await startServer("demo", ["--entries", "20000"]);
const context = await openKept(folder);
const phone = await TestPhone.in(context, server.url);
await phone.joinDemo("Bench phone");
while ((await entriesKept(phone.page)).ops < 20000) await phone.page.waitForTimeout(50);
await phone.readyForOffline();
const [code = ""] = (await labels(phone)).values();
await phone.go(`/t/${code}`);
await phone.page.locator("tray-screen .numeral.big:not(.old)").waitFor();
while ((await entriesKept(phone.page)).covered < 20000) await phone.page.waitForTimeout(100);
await server.stop();
await phone.page.close();
await (await context.newPage()).goto("about:blank");
const all = new Map<string, number[]>();
for (let i = 0; i < 9; i++) {
	const page = await context.newPage();
	const tools = await context.newCDPSession(page);
	await tools.send("Emulation.setCPUThrottlingRate", { rate: Number(process.env.RATE ?? 4) });
	await page.addInitScript(() => {
		new MutationObserver(() => {
			if ((globalThis as any).done) return;
			if (document.querySelector("tray-screen .numeral.big")) { (globalThis as any).done = true; performance.mark("m:dom"); requestAnimationFrame(() => performance.mark("m:frame")); }
		}).observe(document, { subtree: true, childList: true });
	});
	await page.goto(`${server.url}/t/${code}`);
	await page.locator("tray-screen .numeral.big:not(.old)").waitFor();
	const marks = await page.evaluate(() => [...performance.getEntriesByType("mark").map((m) => [m.name, m.startTime]), ...performance.getEntriesByType("navigation").flatMap((n: any) => [["m:response", n.responseEnd],["m:workerStart", n.workerStart],["m:domInteractive", n.domInteractive]]), ...performance.getEntriesByType("resource").map((r: any) => ["r:" + new URL(r.name).pathname, r.responseEnd])]);
	for (const [k, v] of marks as [string, number][]) all.set(k, [...(all.get(k) ?? []), v]);
	await page.close();
}
for (const [k, v] of [...all].sort((a, b) => median(a[1]) - median(b[1]))) console.log(k.padEnd(50), median(v).toFixed(0));
await context.close();
await server.end();
