// Words of the scanner.

import type { CameraFault } from "../device/camera.ts";

/** What stands in the place of the picture. */
interface Trouble {
	title: string;
	words: string;
}

const troubles: Record<CameraFault | "reader", Trouble> = {
	denied: {
		title: "The camera is not allowed",
		words:
			"Allow it for this site in the browser's settings (the sign beside the address, or the app's permissions), then try again.",
	},
	none: {
		title: "No camera was found",
		words: "Plug one in, or type the code that stands under the square.",
	},
	busy: {
		title: "The camera is in use",
		words: "Another app or tab has it, or it did not start. Close that one, then try again.",
	},
	insecure: {
		title: "No camera over this connection",
		words:
			"Browsers give the camera only to pages with a secure address (https). Type the code; whoever runs the server can mend it.",
	},
	reader: {
		title: "The label reader is not here yet",
		words:
			"This browser needs a part that has not been fetched so far. It comes by itself with the next connection. Type the code meanwhile.",
	},
};

export const scan = {
	title: "Scan a label",
	starting: "Starting the camera…",
	picture: "What the camera sees",
	hold: "Hold the label's square in the frame.",
	light: "Light",
	type: "Type the code",
	again: "Try again",
	read: "Label read",
	troubles,
	/** What a code that opens no tray is. */
	not: {
		elsewhere: (host: string) =>
			`A label of another household: it leads to ${host}. No tray here carries its code.`,
		invite: "An invite to join a household. It is for the camera of the phone that joins.",
		web: (host: string) => `No label: a web address at ${host}. It was not opened.`,
		wifi: "No label: the sign-in of a Wi-Fi network.",
		contact: "No label: a contact card.",
		phone: "No label: a telephone number.",
		mail: "No label: an e-mail address.",
		text: "No label: plain text.",
	},
	notHint: "Tray labels have a square and nine symbols in three groups.",
} as const;
