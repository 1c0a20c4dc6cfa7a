// What the five calls of the engine take and give. The views and the intent are
// generated (types.gen.ts); these headers belong to the phone alone.

import type { Intent, SlipView } from "../types.gen.ts";

/** Where this phone stands in the server's order of arrival: opaque here. */
export type Hint = { inst: string; n: number };

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
	refused: { code: string; field: string; detail: string } | null;
	slip: SlipView | null;
}

export interface ReceiveHeader {
	ops: string[];
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
}

/** What happened to the phone, as the loop of an exchange hears it. */
export interface ExchangeEvent {
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
	/** The phone's own clock, ms. */
	now: number;
	/** 0 ≤ rand < 1, new for every event. */
	rand: number;
	/** Of the effect that this answers. */
	seq?: number;
	status?: number;
	body?: string;
	json?: boolean;
	/** Seconds. */
	retryAfter?: number;
	ops?: string[];
	reason?: string;
}

export type SyncState = "idle" | "busy" | "offline" | "auth" | "portal" | "revoked" | "problem";

export interface SyncStatus {
	waiting: number;
	heard: number;
	state: SyncState;
	detail?: string;
}

export interface Refusal {
	id: string;
	code: string;
	why?: string;
}

/** What an exchange taught, for one transaction. Absent lists are empty. */
export interface StoreEffect {
	ops?: string[];
	known?: string[];
	unknown?: string[];
	refused?: Refusal[];
	roster?: string[];
	hint: Hint;
	floor: number;
	heard: number;
}

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
