import assert from "node:assert/strict";
import { test } from "node:test";
import { Engine, EngineDied, type FromWorker, type ToWorker, type WorkerLike } from "./engine.ts";
import { decodeFrame, encodeFrame } from "./frame.ts";

class FakeWorker implements WorkerLike {
	onmessage: ((event: MessageEvent<FromWorker>) => void) | null = null;
	onerror: ((event: ErrorEvent) => void) | null = null;
	ended = false;
	asked: ToWorker[] = [];
	postMessage(message: ToWorker): void {
		this.asked.push(message);
	}
	terminate(): void {
		this.ended = true;
	}
	say(data: FromWorker): void {
		this.onmessage?.({ data } as MessageEvent<FromWorker>);
	}
}

function engine() {
	const workers: FakeWorker[] = [];
	let now = 0;
	const made = new Engine(
		() => {
			const worker = new FakeWorker();
			workers.push(worker);
			return worker;
		},
		() => now,
	);
	return { made, workers, at: (ms: number) => (now = ms) };
}
const receive = { ops: [], mine: false, more: false };

test("answers find their calls in any order", async () => {
	const { made, workers } = engine();
	const first = made.call("receive", receive);
	const second = made.call("receive", receive);
	const [a, b] = workers[0]?.asked ?? [];
	assert.deepEqual(decodeFrame(a?.frame as Uint8Array).header, receive);
	workers[0]?.say({ id: b?.id ?? 0, frame: encodeFrame({ added: 2 }) });
	workers[0]?.say({ id: a?.id ?? 0, frame: encodeFrame({ added: 1 }) });
	assert.equal((await first).header.added, 1);
	assert.equal((await second).header.added, 2);
});

test("an engine's error is the call's, and the engine lives on", async () => {
	const { made, workers } = engine();
	const call = made.call("receive", receive);
	workers[0]?.say({ id: 1, frame: encodeFrame({ error: "not open" }) });
	await assert.rejects(call, /not open/);
	assert.equal(workers.length, 1);
});

test("a death fails the calls under way and puts a fresh engine in place", async () => {
	const { made, workers } = engine();
	const told: boolean[] = [];
	made.onDied = (_why, gaveUp) => told.push(gaveUp);
	const call = made.call("receive", receive);
	workers[0]?.say({ died: "out of memory" });
	await assert.rejects(call, EngineDied);
	assert.deepEqual([workers.length, workers[0]?.ended, told], [2, true, [false]]);
	const next = made.call("receive", receive);
	workers[1]?.say({ id: workers[1].asked[0]?.id ?? 0, frame: encodeFrame({ added: 0 }) });
	await next;
});

test("an engine that keeps dying within a minute is given up, and calls say so", async () => {
	const { made, workers } = engine();
	const told: boolean[] = [];
	made.onDied = (_why, gaveUp) => told.push(gaveUp);
	for (let i = 0; i < 3; i++) workers[i]?.say({ died: "again" });
	assert.deepEqual(told, [false, false, true]);
	await assert.rejects(made.call("receive", receive), EngineDied);
});

test("deaths far apart are each forgiven", () => {
	const { made, workers, at } = engine();
	const told: boolean[] = [];
	made.onDied = (_why, gaveUp) => told.push(gaveUp);
	for (let i = 0; i < 4; i++) {
		at(i * 61_000);
		workers[i]?.say({ died: "again" });
	}
	assert.deepEqual(told, [false, false, false, false]);
});
