import assert from "node:assert/strict";
import { test } from "node:test";
import { browserTabs } from "./tabs.ts";

/** One lock as browsers keep it: granted later, never within the call. */
class FakeLocks {
	held = false;
	#queue: (() => void)[] = [];

	async request(_name: string, ...rest: unknown[]): Promise<void> {
		const [options, work] = rest.length === 2 ? rest : [{}, rest[0]];
		const run = work as (lock: object | null) => Promise<never> | undefined;
		await new Promise((later) => setTimeout(later, 5));
		if (this.held) {
			if ((options as { ifAvailable?: boolean }).ifAvailable) {
				await run(null);
				return;
			}
			await new Promise<void>((free) => this.#queue.push(free));
		}
		this.held = true;
		void run({});
	}

	release(): void {
		this.held = false;
		this.#queue.shift()?.();
	}
}

function lead(locks: FakeLocks): Promise<boolean> {
	Object.defineProperty(globalThis, "navigator", { value: { locks }, configurable: true });
	return new Promise((led) => {
		browserTabs.lock("lead", (waited) => {
			led(waited);
			return new Promise<never>(() => {});
		});
	});
}

test("a tab alone leads without having waited, however slow the browser grants it", async () => {
	assert.equal(await lead(new FakeLocks()), false);
});

test("a tab that leads after another one knows that it waited", async () => {
	const locks = new FakeLocks();
	assert.equal(await lead(locks), false);
	const second = lead(locks);
	setTimeout(() => locks.release(), 30);
	assert.equal(await second, true);
});
