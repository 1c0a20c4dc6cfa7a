// Asks the household's server for paper: labels, cards, a calibration page.

import type { Sheet } from "../types.gen.ts";
import { Refused } from "./invites.ts";
import type { Answer } from "./net.ts";

/** What is to be drawn; the twin of the server's PrintRequest in openapi.json. */
export interface PrintRequest {
	what: "labels" | "calibration" | "cards";
	language: string;
	anyway?: boolean;
	sheet?: Sheet;
	start?: number;
	/** Micrometres. */
	offsetX?: number;
	offsetY?: number;
	copies?: number;
	labels?: { code: string; tray: string; bin: string }[];
	blank?: number;
	paper?: string;
	cards?: {
		bin: string;
		trays: string[];
		vessels: { name: string; amount: string }[];
		mass: string;
		temp: string;
	}[];
}

/** Returns the PDF. Throws a NetFault if nobody answered, Refused if the server
 * would not draw it. */
export async function print(
	request: PrintRequest,
	post: (path: string, body: unknown) => Promise<Answer>,
): Promise<Blob> {
	const answer = await post("/api/v1/print", request);
	if (answer.status !== 200 || !answer.file) throw new Refused(answer);
	return answer.file;
}
