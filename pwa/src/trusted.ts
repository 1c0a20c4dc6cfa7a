// The one Trusted Types policy of the app. Three scripts are ever started by
// address, the engine's worker, the reader's and the service worker; any other
// address is a bug or an attack, and throws.

type Factory = {
	createPolicy(
		name: string,
		rules: { createScriptURL(url: string): string },
	): { createScriptURL(url: string): unknown };
};

const allowed = (url: string): string => {
	if (url !== WORKER_URL && url !== READER_URL && url !== "/sw.js")
		throw new TypeError(`not a script of the app: ${url}`);
	return url;
};

const factory = (globalThis as { trustedTypes?: Factory }).trustedTypes;
const policy = factory?.createPolicy("app", { createScriptURL: allowed });

/** The address as the browser wants it: a TrustedScriptURL where it has them.
 * The DOM types know only strings. */
export const scriptURL = (url: string): string =>
	(policy ? policy.createScriptURL(url) : allowed(url)) as string;
