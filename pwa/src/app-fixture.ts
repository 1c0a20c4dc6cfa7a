// An App without a phone behind it: views are given, what is recorded is kept
// in a list. For the gallery of elements and for tests of screens.

import type { App, Recorded, ScreenName, Shown, ViewArgs, Views } from "./app-api.ts";
import type { Intent } from "./types.gen.ts";

export interface Fixture extends App {
	/** Everything recorded, oldest first. */
	readonly recorded: Intent[];
	/** Everything said in the live region. */
	readonly said: string[];
	/** Paths opened. */
	readonly went: string[];
	/** What the next record answers; null for "saved". */
	answer: Recorded | null;
	/** When the views were worked out; null is live. */
	from: number | null;
	/** Replaces a view and tells the screens. */
	show<S extends ScreenName>(screen: S, view: Views[S]): void;
}

/** Noon of an invented day, so that fixtures look the same for ever. */
export const fixtureNow = Date.UTC(2026, 10, 25, 12, 0, 0);

export function fixtureApp(views: Partial<Views>): Fixture {
	const held: Partial<Views> = { ...views };
	const runs = new Set<() => void>();
	const drafts = new Map<string, unknown>();
	const changed = (): void => {
		for (const run of [...runs]) run();
	};
	const fixture: Fixture = {
		recorded: [],
		said: [],
		went: [],
		answer: null,
		from: null,
		show(screen, view) {
			held[screen] = view;
			changed();
		},
		async view<S extends ScreenName>(screen: S, _args?: ViewArgs): Promise<Shown<Views[S]>> {
			const data = held[screen];
			if (data === undefined) throw new Error(`fixture has no ${screen} view`);
			return { data: data as Views[S], from: fixture.from };
		},
		async record(intent) {
			fixture.recorded.push(intent);
			const answer = fixture.answer ?? { ok: true, entity: intent.entity ?? "feeding/fixture" };
			fixture.answer = null;
			if (answer.ok) changed();
			return answer;
		},
		go(path) {
			fixture.went.push(path);
		},
		photos: {
			take: async () => ({ hash: "0".repeat(64), width: 4, height: 3, bytes: 100 }),
			url: async () => undefined,
			onlyHere: async () => new Map(),
			onChange: () => () => {},
		},
		onChange(run) {
			runs.add(run);
			return () => runs.delete(run);
		},
		say(sentence) {
			fixture.said.push(sentence);
		},
		async draft(key) {
			return drafts.get(key);
		},
		keepDraft(key, value) {
			drafts.set(key, value);
		},
		async dropDraft(key) {
			drafts.delete(key);
		},
		now: () => fixtureNow,
		day: (ms = fixtureNow) => new Date(ms).toISOString().slice(0, 10),
		heard: () => fixtureNow,
		me: () => ({
			member: "member/fixture",
			role: "keeper",
			device: "00000000000000000000000000000000",
		}),
	};
	return fixture;
}
