// The language this phone speaks: the one its owner chose under More, else the
// first of the browser's that the app has. It is fixed when the page starts, so
// words may be read anywhere and at any time; another choice reloads the page,
// which keeps drafts and entries.

/** The app's languages by their own names. */
export const languages = { en: "English", es: "Español" } as const;
export type Language = keyof typeof languages;

const KEY = "trayside-language";
const known = (tag: string): tag is Language => Object.hasOwn(languages, tag);

/** Chooses among the app's languages: what was chosen, else the first of the
 * browser's tags ("es-MX") whose language the app has, else English. */
export function choose(chosen: string | null, tags: readonly string[]): Language {
	if (chosen !== null && known(chosen)) return chosen;
	return tags.map((tag) => tag.toLowerCase().split("-")[0] ?? "").find(known) ?? "en";
}

/** The tag that numbers and dates are written by: the browser's own where it is
 * of that language ("en-US"), because it knows the country. */
export function localeOf(language: Language, tags: readonly string[]): string {
	const own = { en: "en-GB", es: "es" }[language];
	return tags.find((tag) => tag.toLowerCase().split("-")[0] === language) ?? own;
}

// Storage may be forbidden, and tests have none.
function chosen(): string | null {
	try {
		return globalThis.localStorage?.getItem(KEY) ?? null;
	} catch {
		return null;
	}
}

const tags = globalThis.navigator?.languages ?? [];

export const language: Language = choose(chosen(), tags);
export const locale: string = localeOf(language, tags);

/** Speaks another language from now on. */
export function speak(next: Language): void {
	localStorage.setItem(KEY, next);
	location.reload();
}
