// Doing at a pace what is asked for in bursts.

/** Runs at once, and then at most once in `ms`: what is asked for meanwhile is
 * done together when that time is over. */
export function paced(
	run: () => void,
	ms: number,
	setTimer: (run: () => void, ms: number) => unknown = setTimeout,
): () => void {
	let resting = false;
	let again = false;
	const go = (): void => {
		resting = true;
		again = false;
		setTimer(() => {
			resting = false;
			if (again) go();
		}, ms);
		run();
	};
	return () => {
		if (resting) again = true;
		else go();
	};
}
