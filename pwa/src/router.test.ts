import assert from "node:assert/strict";
import { test } from "node:test";
import { read } from "./router.ts";

test("every address of the app opens its place", () => {
	for (const [path, place, arg] of [
		["/", "today", ""],
		["/t/ABCD-2345", "tray", "ABCD-2345"],
		["/T/abcd2345", "tray", "abcd2345"],
		["/t/ABCD%202345/", "tray", "ABCD 2345"],
		["/t/%E0%A4%A", "tray", "%E0%A4%A"],
		["/t", "code", ""],
		["/scan", "scan", ""],
		["/t/", "code", ""],
		["/Weigh", "weigh", ""],
		["/timeline/", "timeline", ""],
		["/food?q=orange", "food", ""],
		["/household", "household", ""],
		["/bin?new", "bin", ""],
		["/plan", "plan", ""],
		["/join", "join", ""],
		["/t/A/B", "lost", ""],
		["/nowhere", "lost", ""],
	] as const) {
		const route = read(new URL(path, "https://bin.example"));
		assert.deepEqual([route.place, route.args.arg], [place, arg], path);
	}
});

test("what stands behind the question mark reaches the screen", () => {
	const route = read(new URL("/weigh?tray=tray%2Fab", "https://bin.example"));
	assert.equal(route.args.query.get("tray"), "tray/ab");
});
