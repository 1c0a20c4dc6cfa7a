// What the five calls of the engine take and give. The views and the intent are
// generated (types.gen.ts); these headers belong to the phone alone.

import type {
	Event,
	Store as GenStore,
	Hint,
	Intent,
	Result,
	SlipView,
	Status,
} from "../types.gen.ts";

export interface OpenHeader {
	now: number;
	household: string;
	device: string;
	member: string;
	unshared: string[];
	hint: Hint | null;
	floor: number;
	heard: number;
	tail: string[];
	roster: string[];
	more: boolean;
}

export interface OpenAnswer {
	state: "ready" | "rebuilding";
	count: number;
	why: string;
}

export interface RecordHeader {
	now: number;
	rand: string;
	intent: Intent;
}

export interface RecordAnswer {
	ops: string[];
	entity: string;
	entities?: string[];
	refused: { code: string; field: string; detail: string } | null;
	slip: SlipView | null;
}

export interface ReceiveHeader {
	ops: string[];
	/** Signed texts whose signatures were checked; those it holds are passed over. */
	roster?: string[];
	mine: boolean;
	more: boolean;
}

export interface ReceiveAnswer {
	added: number;
}

export interface ViewHeader {
	screen: string;
	arg: string;
	before: string;
	day: string;
	now: number;
	language: string;
}

export type SyncState = "idle" | "busy" | "offline" | "auth" | "portal" | "revoked" | "problem";

/** Event and Effect as the loop has them, narrowed to what each kind carries. */
export type ExchangeEvent = Event & {
	kind:
		| "start"
		| "visible"
		| "online"
		| "saved"
		| "tap"
		| "ripple"
		| "timer"
		| "answer"
		| "failed"
		| "loaded"
		| "stored"
		| "storefailed"
		| "authed"
		| "authfailed"
		| "idle";
	/** Of idle: the storage has no checkpoint of all that the engine was given. */
	news?: boolean;
};
export type SyncStatus = Status & { state: SyncState };
export type StoreEffect = GenStore;
export type Refusal = Result;

/** What the loop of an exchange wants done, in this order. */
export type Effect =
	| { kind: "post"; seq: number; path: string; body: string }
	| { kind: "load"; seq: number; ids: string[] }
	| { kind: "store"; seq: number; store: StoreEffect }
	| { kind: "authenticate"; seq: number }
	| { kind: "timer"; seq: number; ms: number }
	| { kind: "status"; status: SyncStatus }
	| { kind: "changed" }
	| { kind: "wipe"; reason: string };

export interface ExchangeAnswer {
	effects: Effect[];
	checkpoint?: { count: number; root: unknown };
}

/** The five calls. */
export interface Calls {
	open: [OpenHeader, OpenAnswer];
	record: [RecordHeader, RecordAnswer];
	receive: [ReceiveHeader, ReceiveAnswer];
	view: [ViewHeader, unknown];
	exchange: [ExchangeEvent, ExchangeAnswer];
}
export type CallName = keyof Calls;
