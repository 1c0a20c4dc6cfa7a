import assert from "node:assert/strict";
import { test } from "node:test";
import { LineReader, Ripple } from "./ripple.ts";

const bytes = (text: string) => new TextEncoder().encode(text);

test("lines are the same wherever the chunks end", () => {
	const text = "event: ripple\r\ndata: ö\n: alive\n";
	const whole = bytes(text);
	for (let cut = 0; cut <= whole.length; cut++) {
		const lines: string[] = [];
		const reader = new LineReader((line) => lines.push(line));
		reader.push(whole.subarray(0, cut));
		reader.push(whole.subarray(cut));
		assert.deepEqual(lines, ["event: ripple", "data: ö", ": alive"], `cut at ${cut}`);
	}
});

const stream = (text: string, init: ResponseInit = {}) =>
	new Response(text, { headers: { "Content-Type": "text/event-stream" }, ...init });

/** Runs a ripple over given answers until they are used up. */
async function run(answers: (Response | Error)[]) {
	let heard = 0;
	let refused = 0;
	const slept: number[] = [];
	await new Promise<void>((done) => {
		const ripple = new Ripple({
			open: async () => {
				const next = answers.shift();
				if (!next) {
					ripple.stop();
					done();
					throw new Error("no more");
				}
				if (next instanceof Error) throw next;
				return next;
			},
			refused: () => refused++,
			heard: () => heard++,
			sleep: async (ms) => {
				slept.push(ms);
			},
			rand: () => 1,
		});
		ripple.start();
	});
	return { heard, refused, slept };
}

test("a ripple is heard when the stream opens and at each event, not at comments", async () => {
	const { heard } = await run([
		stream(": alive\n\nevent: ripple\ndata:\n\nevent: ripple\ndata:\n\n"),
	]);
	assert.equal(heard, 3);
});

test("the first tries come within a second, for people who stand and wait", async () => {
	const { slept } = await run(Array.from({ length: 300 }, () => new Error("no answer")));
	assert.deepEqual(new Set(slept), new Set([1000]));
});

test("later tries come ever later, never more than five minutes apart", async () => {
	const { slept } = await run(Array.from({ length: 320 }, () => new Error("no answer")));
	assert.deepEqual(slept.slice(299, 303), [1000, 2000, 4000, 8000]);
	assert.equal(Math.max(...slept), 300_000);
});

test("a stream that worked makes the next tries come soon again", async () => {
	const no = () => new Error("no answer");
	const { slept } = await run([...Array.from({ length: 304 }, no), stream(": alive\n\n"), no()]);
	assert.deepEqual(slept.slice(-3), [16_000, 1000, 1000]);
});

test("a sign-in page is no stream", async () => {
	const page = new Response("<html>", { headers: { "Content-Type": "text/html" } });
	assert.equal((await run([page])).heard, 0);
});

test("a used-up token is thrown away", async () => {
	assert.equal((await run([stream("", { status: 401 })])).refused, 1);
});
