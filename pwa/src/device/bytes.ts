// Bytes as text, and the names of things made from their bytes.

/** Base64url without padding (RFC 4648 section 5). */
export function base64url(bytes: Uint8Array): string {
	let binary = "";
	for (const b of bytes) binary += String.fromCharCode(b);
	return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

export function hex(bytes: Uint8Array): string {
	return Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
}

/** The first 128 bits of SHA-256, in hex: the name of an operation or a device. */
export async function idOf(bytes: Uint8Array<ArrayBuffer> | string): Promise<string> {
	const data = typeof bytes === "string" ? new TextEncoder().encode(bytes) : bytes;
	const sum = await crypto.subtle.digest("SHA-256", data);
	return hex(new Uint8Array(sum, 0, 16));
}

/** Fresh random bytes from the platform's generator, in hex. */
export function randomHex(bytes: number): string {
	return hex(crypto.getRandomValues(new Uint8Array(bytes)));
}
