// What every page must keep: the rules of WCAG 2.2 AA that a program can check,
// targets for a thumb, and the phone's width.

import axe from "axe-core";
import type { TestPhone } from "./harness.ts";
import { still } from "./steps.ts";

const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** Where the page that is open breaks a rule, one line per place. */
export async function broken(phone: TestPhone): Promise<string[]> {
	await still(phone.page);
	const found = await violations(phone);
	for (const line of await small(phone)) found.push(`smaller than 44 px: ${line}`);
	const wide = await phone.page.evaluate(
		() => document.documentElement.scrollWidth - document.documentElement.clientWidth,
	);
	if (wide > 0) found.push(`${wide} px wider than the phone`);
	return found;
}

/** What axe finds on the page, one line per place. */
async function violations(phone: TestPhone): Promise<string[]> {
	// By the debugger, so that the page's own policy stays as it is; once a page.
	if (!(await phone.page.evaluate(() => "axe" in globalThis)))
		await phone.page.evaluate(axe.source);
	return phone.page.evaluate(async (runOnly) => {
		const { axe } = globalThis as unknown as { axe: typeof import("axe-core") };
		// A row half under what sticks to the foot scrolls free of it; axe would
		// call it too small to press.
		for (const sticks of document.querySelectorAll<HTMLElement>(".places, .foot")) {
			sticks.style.position = "static";
		}
		const { violations } = await axe.run(document, { runOnly, resultTypes: ["violations"] });
		return violations.flatMap((v) =>
			v.nodes.map((node) => `${v.id}: ${node.target.join(" ")}: ${node.failureSummary ?? ""}`),
		);
	}, tags);
}

/** Buttons, links and fields smaller than a thumb: 44 px, links in a sentence
 * excepted (WCAG 2.2, 2.5.8, lets those be; the rest is stricter than it asks). */
function small(phone: TestPhone): Promise<string[]> {
	return phone.page.evaluate(() =>
		[...document.querySelectorAll<HTMLElement>("button, a[href], input, select, summary")]
			.filter((element) => {
				const box = element.getBoundingClientRect();
				const hidden = box.width === 0 || element.closest(".vh, .skip, [hidden]") !== null;
				const inSentence = element.matches("p a, h2 a, h3 a");
				const held = element.closest("label")?.getBoundingClientRect();
				const height = Math.max(box.height, held?.height ?? 0);
				return (
					!hidden && !inSentence && (height < 43.5 || Math.max(box.width, held?.width ?? 0) < 43.5)
				);
			})
			.map((element) => `${element.tagName} ${element.textContent?.trim().slice(0, 40)}`),
	);
}
