import assert from "node:assert/strict";
import { test } from "node:test";
import "fake-indexeddb/auto";
import { hashOf, type Outcome } from "./photo-net.ts";
import { PhotoStore } from "./photo-store.ts";
import { Photos } from "./photos.ts";

const done = <T>(value: T): Outcome<T> => ({ kind: "done", value });
const bytesOf = (text: string) => new TextEncoder().encode(text);

let stores = 0;

/** A phone's pictures over a server that the test can cut off. Timers run only
 * when the test says so. */
function world(server = new Map<string, ArrayBuffer>()) {
	const store = new PhotoStore(`photos-${++stores}`);
	const said: string[] = [];
	const w = {
		server,
		store,
		said,
		reachable: true,
		online: true,
		mayWrite: true,
		named: { live: [] as string[], gone: [] as string[] },
		refuse: "",
		now: 1_000,
		waits: [] as number[],
		timer: undefined as (() => void) | undefined,
	};
	const reached = <T>(what: string, answer: () => Outcome<T>): Promise<Outcome<T>> => {
		said.push(what);
		return Promise.resolve(w.reachable ? answer() : { kind: "later", after: 0 });
	};
	const photos = new Photos({
		net: {
			list: () => reached("list", () => done([...server.keys()])),
			get: (hash) =>
				reached(`get ${hash.slice(0, 4)}`, () => {
					const bytes = server.get(hash);
					return bytes ? done(bytes) : { kind: "none" };
				}),
			put: (hash, bytes) =>
				reached(`put ${hash.slice(0, 4)}`, () => {
					if (w.refuse) return { kind: "refused", code: w.refuse };
					server.set(hash, bytes);
					return done(null);
				}),
			remove: (hash) =>
				reached(`remove ${hash.slice(0, 4)}`, () => {
					server.delete(hash);
					return done(null);
				}),
		},
		store,
		pictureOf: async (file) => ({
			bytes: new Uint8Array(await file.arrayBuffer()),
			width: 4,
			height: 3,
		}),
		named: async () => w.named,
		mayWrite: () => w.mayWrite,
		online: () => w.online,
		now: () => w.now,
		rand: () => 1,
		setTimer: (run, ms) => {
			w.waits.push(ms);
			w.timer = run;
		},
		clearTimer: () => {
			w.timer = undefined;
		},
		alone: async (work) => {
			await work();
			return true;
		},
	});
	const settle = async () => {
		for (let i = 0; i < 40; i++) await new Promise((next) => setTimeout(next, 1));
	};
	return {
		...w,
		photos,
		set: (part: Partial<typeof w>) => Object.assign(w, part),
		get waits() {
			return w.waits;
		},
		turn: async () => {
			photos.nudge();
			await settle();
		},
		ring: async () => {
			w.timer?.();
			await settle();
		},
		kept: async () => (await store.rows()).map((row) => row.hash),
	};
}

const file = (text: string) => new Blob([text]);

test("a picture taken in the cellar waits for a connection and is sent once", async () => {
	const phone = world();
	phone.set({ reachable: false });
	const { hash, width, bytes } = await phone.photos.take(file("beetle"));
	assert.equal(hash, await hashOf(bytesOf("beetle")));
	assert.deepEqual([width, bytes], [4, 6]);
	phone.set({ named: { live: [hash], gone: [] } });
	await phone.turn();
	await phone.ring();
	await phone.ring();
	assert.equal(phone.server.size, 0);
	assert.deepEqual([...(await phone.photos.onlyHere())], [[hash, ""]]);
	assert.deepEqual(phone.waits, [5_000, 10_000, 20_000], "each wait is longer than the one before");

	phone.set({ reachable: true });
	await phone.ring();
	assert.deepEqual([...phone.server.keys()], [hash]);
	assert.equal((await phone.photos.onlyHere()).size, 0);
	phone.said.length = 0;
	await phone.turn();
	assert.deepEqual(phone.said, [], "nothing is left to do, so nobody is asked");
});

test("a picture is not sent before its entry is saved", async () => {
	const phone = world();
	await phone.photos.take(file("beetle"));
	await phone.turn();
	assert.equal(phone.server.size, 0);
	assert.equal((await phone.kept()).length, 1);
});

test("a picture refused for good is not sent again", async () => {
	const phone = world();
	phone.set({ refuse: "photo-private" });
	const { hash } = await phone.photos.take(file("beetle"));
	phone.set({ named: { live: [hash], gone: [] } });
	await phone.turn();
	phone.said.length = 0;
	await phone.turn();
	assert.deepEqual(phone.said, []);
	assert.deepEqual([...(await phone.photos.onlyHere())], [[hash, "photo-private"]]);
});

test("another phone fetches it, and both and the server let it go", async () => {
	const server = new Map<string, ArrayBuffer>();
	const [ada, odell] = [world(server), world(server)];
	const { hash } = await ada.photos.take(file("beetle"));
	const named = { live: [hash], gone: [] };
	ada.set({ named });
	odell.set({ named });
	await odell.turn(); // too early: Ada has not sent it
	assert.deepEqual(await odell.kept(), []);
	await ada.turn();
	await odell.ring();
	assert.deepEqual(await odell.kept(), [hash]);

	const gone = { live: [], gone: [hash] };
	odell.set({ named: gone });
	await odell.turn();
	assert.equal(server.size, 0);
	assert.deepEqual(await odell.kept(), []);
	ada.set({ named: gone });
	await ada.turn();
	assert.deepEqual(await ada.kept(), []);
	assert.equal(server.size, 0);
});

test("a picture that was sent after it was removed elsewhere goes when its sender hears of it", async () => {
	const server = new Map<string, ArrayBuffer>();
	const [ada, odell] = [world(server), world(server)];
	const { hash } = await ada.photos.take(file("beetle"));
	odell.set({ named: { live: [], gone: [hash] } });
	await odell.turn();
	ada.set({ named: { live: [hash], gone: [] } });
	await ada.turn();
	assert.equal(server.size, 1, "Ada's phone has not heard yet");
	ada.set({ named: { live: [], gone: [hash] } });
	await ada.turn();
	assert.equal(server.size, 0);
});

test("a phone that may only look drops its copy and leaves the server to others", async () => {
	const phone = world(new Map([["aa", bytesOf("x").buffer as ArrayBuffer]]));
	phone.set({ mayWrite: false, named: { live: [], gone: ["aa"] } });
	await phone.turn();
	assert.equal(phone.server.size, 1);
});

test("a picture can be looked at without a connection once it was here", async () => {
	const phone = world();
	const { hash } = await phone.photos.take(file("beetle"));
	phone.set({ online: false });
	const url = await phone.photos.url(hash);
	assert.match(url ?? "", /^blob:/);
	assert.equal(await phone.photos.url(hash), url);
	assert.equal(await phone.photos.url("0".repeat(64)), undefined);
});

test("an emptied phone has no pictures, and keeps none that come late", async () => {
	const phone = world();
	await phone.photos.take(file("beetle"));
	await phone.photos.wipe();
	await assert.rejects(phone.photos.take(file("mite")), /emptied/);
	assert.deepEqual(await new PhotoStore(`photos-${stores}`).rows(), []);
});
