import assert from "node:assert/strict";
import { test } from "node:test";
import type { FeedLine, Job, TierView } from "../types.gen.ts";
import { jobPage, toldWords } from "./doing.ts";
import { onward } from "./tray-last.ts";

const job = (kind: string): Job => ({ kind, bin: "bin/a", tray: "tray/a", name: "Fern" });
const stack = [{ id: "tray/a", code: "00018HWZF" }] as TierView[];

test("each job leads to the page it is done on", () => {
	assert.equal(jobPage(job("harvest"), stack), "/harvest?tray=tray%2Fa");
	assert.equal(jobPage(job("look"), stack), "/look?tray=tray%2Fa");
	assert.equal(jobPage(job("look-again"), stack), "/look?tray=tray%2Fa");
	assert.equal(jobPage(job("rest"), stack), "/t/00018HWZF");
	assert.equal(jobPage(job("rest"), []), "/");
});

test("keepers are told who fed how much, where, and what was advised", () => {
	const feed = { who: "Wren", grams: 350 } as FeedLine;
	const said = toldWords({ feed, name: "Fern", ration: 175 }, "g").replaceAll("\u00a0", " ");
	assert.equal(said, "Wren fed 350 g into Fern; 175 g was advised.");
	const none = toldWords({ feed, name: "Fern", ration: 0 }, "g");
	assert.doesNotMatch(none, /advised|\b0/, "no figure where there was none");
	assert.match(none, /Wren.*Fern/);
});

test("a tray leads to what is wrong with it, and to its harvest once it rests", () => {
	const at = (stage: string) =>
		onward({ id: "tray/a", tier: { stage } as TierView }).map(([href]) => href);
	assert.deepEqual(at("feeding"), ["/trouble?tray=tray%2Fa"]);
	for (const stage of ["resting", "ready"])
		assert.deepEqual(at(stage), ["/trouble?tray=tray%2Fa", "/harvest?tray=tray%2Fa"]);
});
