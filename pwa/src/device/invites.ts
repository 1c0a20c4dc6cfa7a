// Adding a phone, from the keeper's side: an invite is minted by the server, the
// new phone shows a number, and this phone signs it into the roster.

import { signRoster } from "./keys.ts";
import type { KeyRow } from "./layout.ts";
import { type Answer, type Net, problemCode } from "./net.ts";

export interface Invite {
	id: string;
	short: string;
	link: string;
	/** ms */
	expires: number;
	/** Rows of the link's square code, "0110…"; absent from older servers. */
	qr?: string[];
}

/** A phone that used an invite and waits for a keeper. */
export interface Waiting {
	id: string;
	device: string;
	match: string;
	key: string;
	dev: string;
	member: string;
	role: string;
}

/** The server answered, and not with what was asked for. */
export class Refused extends Error {
	override name = "Refused";
	readonly code: string;
	/** Those that no label has, where that is why. */
	readonly letters: string;
	constructor(answer: Answer) {
		const said = answer.data as { detail?: string; letters?: string } | undefined;
		super(said?.detail ?? `${answer.status}`);
		this.code = problemCode(answer);
		this.letters = said?.letters ?? "";
	}
}

export interface InviteWorld {
	net: Net;
	token(): Promise<string>;
	key(): Promise<KeyRow>;
	/** The engine's text for a roster operation. */
	signText(arg: string): Promise<string>;
}

export class Invites {
	#world: InviteWorld;

	constructor(world: InviteWorld) {
		this.#world = world;
	}

	async create(role: string, member: string): Promise<Invite> {
		const { net, token } = this.#world;
		const made = good(await net.post("/api/v1/invites", { role, member }, await token())) as Invite;
		return { ...made, expires: instantOf(made.expires) };
	}

	async waiting(): Promise<Waiting[]> {
		const { net, token } = this.#world;
		const { waiting } = good(await net.get("/api/v1/invites", await token())) as {
			waiting: Waiting[] | null;
		};
		return waiting ?? [];
	}

	async revoke(id: string): Promise<void> {
		const { net, token } = this.#world;
		good(await net.delete(`/api/v1/invites/${encodeURIComponent(id)}`, await token()));
	}

	/** Signs the waiting phone into the household. */
	async grant(phone: Waiting): Promise<void> {
		const { net, token, key, signText } = this.#world;
		const { dev: to, key: publicKey, member, role, device: name } = phone;
		const op = await signText(
			JSON.stringify({ kind: "grant", to, key: publicKey, member, role, name }),
		);
		const roster = await signRoster(await key(), op);
		const path = `/api/v1/invites/${encodeURIComponent(phone.id)}/grant`;
		good(await net.post(path, { roster }, await token()));
	}
}

function good(answer: Answer): unknown {
	if (answer.status < 200 || answer.status > 299) throw new Refused(answer);
	return answer.data;
}

/** Servers say an instant as ms or in RFC 3339. */
function instantOf(value: number | string): number {
	return typeof value === "number" ? value : Date.parse(value);
}
