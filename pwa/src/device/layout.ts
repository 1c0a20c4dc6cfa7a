// What lies where in the phone's storage. Rules for whoever changes it: a new
// version only adds stores and indexes; nothing is deleted in the release that
// stops using it; `ops` holds the entries' own bytes and never changes shape.

import type { DBSchema } from "idb";

export const DATABASE = "trayside";
export const VERSION = 1;

/** One entry of the log: `text` is what its author wrote, byte for byte. */
export interface OpRow {
	seq: number;
	id: string;
	text: string;
	/** 0 until the server has said that it holds it. Then nothing, so that the index
	 * has only what waits and a first pull does not write it. Phones that pulled
	 * earlier have a 1 there. */
	known?: 0 | 1;
}

/** An entry the household did not accept: kept until its owner discards it. */
export interface RefusedRow {
	id: string;
	text: string;
	why: string;
	when: number;
}

/** The engine's own snapshot, and which entries it covers: all up to `seq`. */
export interface CheckpointRow {
	seq: number;
	engine: string;
	count: number;
	root: unknown;
	bytes: Uint8Array;
}

export interface ProjectionRow {
	data: unknown;
	at: number;
}

export interface KeyRow {
	privateKey: CryptoKey;
	/** SEC1 uncompressed point, 65 bytes. */
	publicKey: Uint8Array;
	device: string;
}

export interface Meta {
	household: string;
	device: string;
	member: string;
	role: "" | "keeper" | "feeder" | "viewer";
	deviceName: string;
	zone: string;
	hint: unknown;
	floor: number;
	heard: number;
	persisted: boolean;
	joining: unknown;
	/** Why this phone was emptied, shown on the join screen until it joins anew. */
	wiped: string;
	/** Household whose entries are still here for an export. */
	was: string;
}

export interface Layout extends DBSchema {
	ops: {
		key: number;
		value: Omit<OpRow, "seq"> & { seq?: number };
		indexes: { id: string; known: number };
	};
	roster: { key: string; value: { text: string } };
	drafts: { key: string; value: unknown };
	checkpoint: { key: string; value: CheckpointRow };
	projection: { key: string; value: ProjectionRow };
	meta: { key: string; value: unknown };
	refused: { key: string; value: RefusedRow };
	keys: { key: string; value: KeyRow };
}

export type Name =
	| "ops"
	| "roster"
	| "drafts"
	| "checkpoint"
	| "projection"
	| "meta"
	| "refused"
	| "keys";
export const ALL: Name[] = [
	"ops",
	"roster",
	"drafts",
	"checkpoint",
	"projection",
	"meta",
	"refused",
	"keys",
];
