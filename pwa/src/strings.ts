// All words the app shows, in one place. English for now; a second language is
// a second object of the same type, so keys are typed and never built from text.
//
// Rules: say what is so and what to do; sentences without blame; numbers with
// units; codes from the engine are looked up here and nowhere else. Each area
// of the app has its own block; add yours beside the others.

const n = (count: number, one: string, many: string): string =>
	`${count} ${count === 1 ? one : many}`;

const app = {
	name: "Trayside",
	places: "Places",
	today: "Today",
	weigh: "Weigh",
	timeline: "Timeline",
	household: "Household",
	join: "Join",
	tray: "Tray",
} as const;

const sync = {
	waiting: (count: number) => `${n(count, "entry waits", "entries wait")} on this phone`,
} as const;

export const text = { app, sync } as const;
export type Text = typeof text;
