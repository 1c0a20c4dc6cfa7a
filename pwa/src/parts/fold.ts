// Folds the details that something tapped stands in: it was chosen.

export const fold = (e: Event): void =>
	(e.currentTarget as Element).closest("details")?.removeAttribute("open");
