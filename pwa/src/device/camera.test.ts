import assert from "node:assert/strict";
import { test } from "node:test";
import { Camera } from "./camera.ts";

/** A camera whose track says what it can and remembers what it was told. */
function devices(can: object | undefined, apply = async (_: MediaTrackConstraints) => {}) {
	const track = {
		stopped: 0,
		getCapabilities: can && (() => can),
		applyConstraints: apply,
		stop() {
			this.stopped++;
		},
	};
	const stream = { getVideoTracks: () => [track], getTracks: () => [track] };
	const asked: MediaStreamConstraints[] = [];
	const media = {
		getUserMedia: async (wanted: MediaStreamConstraints) => {
			asked.push(wanted);
			return stream;
		},
	} as unknown as MediaDevices;
	return { media, asked, track };
}

async function opened(media: MediaDevices): Promise<Camera> {
	const camera = await Camera.open(media);
	assert.ok(camera instanceof Camera);
	return camera;
}

test("the rear camera is asked for, and no microphone", async () => {
	const { media, asked, track } = devices({});
	const camera = await opened(media);
	const [wanted] = asked;
	assert.ok(wanted && typeof wanted.video === "object");
	assert.equal(wanted.audio, false);
	assert.deepEqual(wanted.video.facingMode, { ideal: "environment" });
	camera.close();
	assert.equal(track.stopped, 1);
});

test("the light is offered only where the track has one", async () => {
	assert.equal((await opened(devices({ torch: true }).media)).hasLight, true);
	assert.equal((await opened(devices({ torch: false }).media)).hasLight, false);
	assert.equal((await opened(devices({}).media)).hasLight, false);
	assert.equal((await opened(devices(undefined).media)).hasLight, false);
});

test("a light that does not switch says so", async () => {
	const told: MediaTrackConstraints[] = [];
	const good = devices({ torch: true }, async (wanted) => {
		told.push(wanted);
	});
	assert.equal(await (await opened(good.media)).light(true), true);
	assert.deepEqual(told, [{ advanced: [{ torch: true }] }]);
	const bad = devices({ torch: true }, async () => {
		throw new Error("no");
	});
	assert.equal(await (await opened(bad.media)).light(true), false);
});

for (const [error, want] of [
	["NotAllowedError", "denied"],
	["SecurityError", "denied"],
	["NotFoundError", "none"],
	["OverconstrainedError", "none"],
	["NotReadableError", "busy"],
	["AbortError", "busy"],
] as const) {
	test(`a camera that fails with ${error} is called ${want}`, async () => {
		const media = {
			getUserMedia: async () => {
				throw Object.assign(new Error("no"), { name: error });
			},
		} as unknown as MediaDevices;
		assert.equal(await Camera.open(media), want);
	});
}

test("a page without a secure connection has no camera to ask", async () => {
	assert.equal(await Camera.open(undefined), "insecure");
});
