// Entries as a file that anybody can read: JSON lines, each the entry's own
// bytes, so that nothing is lost on the way back in.

import type { Store } from "./store.ts";

/** Everything that is on this phone, as a file named after the day. */
export async function exportLog(store: Store, day: string): Promise<void> {
	const { ops, roster, refused } = await store.everything();
	download(`trayside-${day}.jsonl`, [
		...roster,
		...ops.map((row) => row.text),
		...refused.map((row) => row.text),
	]);
}

/** Hands a text file to the person, by the browser's own download. */
export function download(name: string, lines: string[]): void {
	const blob = new Blob(
		lines.map((line) => `${line}\n`),
		{ type: "application/x-ndjson" },
	);
	const link = document.createElement("a");
	link.href = URL.createObjectURL(blob);
	link.download = name;
	document.body.append(link);
	link.click();
	link.remove();
	// The browser needs the address until it has begun to write the file.
	setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
