// Labels beside a drawing: how wide words are, where they break, and where each
// label stands so that none touches another. Sums only, so that they can be
// tested without a page.

/** A label that wants to stand beside something. Sizes in px. */
export interface Wanted {
	/** Height of the thing it names: the middle of the label wants to be there. */
	at: number;
	/** How high it is with all its lines, and with only the needed ones. */
	full: number;
	brief: number;
	/** The larger, the sooner it is shortened and then left out. */
	rank: number;
}

/** Where a label stands. */
export interface Standing {
	/** Its place in the list that was given. */
	index: number;
	top: number;
	height: number;
	brief: boolean;
}

/** Places labels one below the other between `from` and `to`, each as near to
 * its thing as the others let it, in the order of their things. Where there is
 * no room for all, the least important are shortened first, then left out. */
export function placeLabels(wanted: Wanted[], from: number, to: number): Standing[] {
	const chosen = fitting(wanted, to - from).sort(
		(a, b) => (wanted[a.index]?.at ?? 0) - (wanted[b.index]?.at ?? 0) || a.index - b.index,
	);
	// With the heights above it taken off, a label's top must not be less than the
	// one before: labels that push each other become one block at their mean.
	const blocks: { sum: number; count: number }[] = [];
	let above = 0;
	for (const label of chosen) {
		let block = {
			sum: (wanted[label.index]?.at ?? 0) - label.height / 2 - above,
			count: 1,
		};
		above += label.height;
		for (let last = blocks.at(-1); last && mean(last) > mean(block); last = blocks.at(-1)) {
			block = { sum: block.sum + last.sum, count: block.count + last.count };
			blocks.pop();
		}
		blocks.push(block);
	}
	const free = blocks.flatMap((block) => new Array<number>(block.count).fill(mean(block)));
	let taken = 0;
	return chosen.map((label, i) => {
		const top = Math.min(to - above, Math.max(from, free[i] ?? from)) + taken;
		taken += label.height;
		return { ...label, top };
	});
}

const mean = (block: { sum: number; count: number }): number => block.sum / block.count;

/** The labels that `room` holds, by what is shortened and left out first. */
function fitting(wanted: Wanted[], room: number): Omit<Standing, "top">[] {
	const labels = wanted.map((w, index) => ({ index, height: w.full, brief: false }));
	const total = (): number => labels.reduce((sum, label) => sum + label.height, 0);
	const leastFirst = wanted
		.map((_, index) => index)
		.sort((a, b) => (wanted[b]?.rank ?? 0) - (wanted[a]?.rank ?? 0));
	for (const index of leastFirst) {
		const label = labels[index];
		const brief = wanted[index]?.brief ?? 0;
		if (total() <= room || !label || brief >= label.height) continue;
		label.height = brief;
		label.brief = true;
	}
	for (const index of leastFirst) {
		if (total() <= room) break;
		labels.splice(
			labels.findIndex((label) => label.index === index),
			1,
		);
	}
	return labels;
}

// Widths of letters as shares of the size, measured on the app's regular face
// and rounded up. Bold is a tenth wider.
const widths: [RegExp, number][] = [
	[/[ .,;:'’|!ijltfr()[\]\u00a0-]/u, 0.34],
	[/[mMW@%&—]/u, 0.86],
	[/[A-Zw0]/u, 0.68],
];

/** How wide a text is about, px; rather too much than too little. */
export function textWidth(words: string, size: number, bold = false): number {
	let sum = 0;
	for (const letter of words) {
		sum += widths.find(([letters]) => letters.test(letter))?.[1] ?? 0.57;
	}
	return sum * size * (bold ? 1.1 : 1);
}

/** Breaks a text between words into lines of at most `width`, at most `most` of
 * them; what does not fit ends in an ellipsis. */
export function wrap(words: string, width: number, size: number, most = 2, bold = false): string[] {
	const fits = (line: string): boolean => textWidth(line, size, bold) <= width;
	const lines: string[] = [];
	let line = "";
	// Only at plain spaces: a number keeps its unit.
	for (const word of words.split(" ").filter(Boolean)) {
		const longer = line ? `${line} ${word}` : word;
		if (line && !fits(longer)) {
			lines.push(line);
			line = word;
		} else {
			line = longer;
		}
	}
	if (line) lines.push(line);
	const kept = lines.slice(0, most).map((l) => (fits(l) ? l : cut(l, fits)));
	const last = kept.at(-1);
	if (lines.length > most && last && !last.endsWith("…")) kept[most - 1] = cut(`${last}…`, fits);
	return kept;
}

function cut(line: string, fits: (line: string) => boolean): string {
	let letters = [...line.replace(/…$/u, "")];
	while (letters.length > 1 && !fits(`${letters.join("")}…`)) letters = letters.slice(0, -1);
	return `${letters.join("").trimEnd()}…`;
}
