// Checks the signatures of a household's roster as they come in. The engine holds
// no curve of its own: every text it is given has passed here, by the browser's
// WebCrypto. Whether an operation counts is still for the engine to say.

const CURVE = { name: "ECDSA", namedCurve: "P-256" } as const;
const SIGNING = { name: "ECDSA", hash: "SHA-256" } as const;

/** The same JSON answer without roster texts whose signature does not fit. Its
 * other members stay as they are; an answer without a roster is passed through. */
export async function vouched<T extends { body: string; data: unknown }>(answer: T): Promise<T> {
	const { data } = answer;
	if (typeof data !== "object" || data === null) return answer;
	const named = Object.entries(data);
	const exact = named.filter(([name]) => name === "roster" || !looksLikeRoster(name));
	const roster = "roster" in data ? data.roster : null;
	const texts = Array.isArray(roster) ? roster : [];
	const fit = await Promise.all(texts.map((text) => fits(text)));
	const whole = roster === null || texts === roster; // null: both sides hold the same
	if (whole && fit.every(Boolean) && exact.length === named.length) return answer;
	const kept = Object.fromEntries(exact);
	if (roster !== null) kept.roster = texts.filter((_, i) => fit[i]);
	return { ...answer, body: JSON.stringify(kept), data: kept };
}

/** The engine's reader takes a member's name in any case, and the long s for an s
 * (Go, encoding/json), so that "Roster" would come in unread by anybody here. */
const looksLikeRoster = (name: string): boolean => name.toUpperCase() === "ROSTER";

/** Whether a signed text carries its key's signature. That the key is the
 * signer's the engine checks, by its hash. */
export async function fits(text: unknown): Promise<boolean> {
	try {
		const { op, key, sig } = JSON.parse(String(text)) as Record<string, unknown>;
		if (typeof op !== "string" || typeof key !== "string" || typeof sig !== "string") return false;
		const signer = await crypto.subtle.importKey("raw", bytes(key), CURVE, false, ["verify"]);
		return await crypto.subtle.verify(SIGNING, signer, bytes(sig), new TextEncoder().encode(op));
	} catch {
		return false; // not JSON, not base64url, not a point of the curve
	}
}

function bytes(base64url: string): Uint8Array<ArrayBuffer> {
	const binary = atob(base64url.replaceAll("-", "+").replaceAll("_", "/"));
	return Uint8Array.from(binary, (c) => c.charCodeAt(0));
}
