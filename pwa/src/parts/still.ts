// Whether the person asked for less motion: then the end state stands at once.

export const stillPlease = (): boolean => matchMedia("(prefers-reduced-motion: reduce)").matches;
