import assert from "node:assert/strict";
import { test } from "node:test";
import { paced } from "./pace.ts";

function hands() {
	const timers: (() => void)[] = [];
	let runs = 0;
	const ask = paced(
		() => {
			runs++;
		},
		1000,
		(run) => timers.push(run),
	);
	return { ask, runs: () => runs, rest: () => timers.shift()?.() };
}

test("the first of a burst is done at once, the others together after a rest", () => {
	const { ask, runs, rest } = hands();
	for (let i = 0; i < 40; i++) ask();
	assert.equal(runs(), 1);
	rest();
	assert.equal(runs(), 2, "the last of the burst is not forgotten");
	ask();
	assert.equal(runs(), 2, "and begins a rest of its own");
	rest();
	assert.equal(runs(), 3);
});

test("what is asked for after a quiet rest is done at once", () => {
	const { ask, runs, rest } = hands();
	ask();
	rest();
	assert.equal(runs(), 1, "nothing was asked for meanwhile");
	ask();
	assert.equal(runs(), 2);
});
