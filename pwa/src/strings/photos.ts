// Words of an entry's pictures.

export const photos = {
	title: "Photos",
	take: "Take a photo",
	choose: "Choose photos",
	busy: "Making it small…",
	coming: "not here yet",
	waiting: "Photo, kept with the entry once that is saved",
	by: (who: string, day: string) => (who ? `Photo by ${who}, ${day}` : `Photo, ${day}`),
	close: "Close",
	remove: "Remove",
	removed: "Photo removed, for everybody",
	keep: "Keep it",
	unshared: "only here so far",
	refused: "the server refuses it",
	saved: "Photo saved",
	notSaved: "The photo was not saved. Try again.",
	full: "Not saved: the phone's storage is full. Free some space and take the photo again.",
	unreadable: "This browser can't read that file as a picture. Try another one.",
} as const;
