// Half-typed forms. Every keystroke is handed over; at most one write per form
// is under way, and the newest value wins, so typing is never slowed down.

export interface DraftStore {
	draft(key: string): Promise<unknown>;
	saveDraft(key: string, value: unknown): Promise<void>;
	dropDraft(key: string): Promise<void>;
}

interface Pending {
	value: unknown;
	dirty: boolean;
	done: Promise<void>;
}

export class Drafts {
	#store: DraftStore;
	#pending = new Map<string, Pending>();
	/** Called when a draft could not be kept; the form still holds it. */
	onFault: (why: unknown) => void = () => {};

	constructor(store: DraftStore) {
		this.#store = store;
	}

	/** The newest value, written or still on its way. */
	async get(key: string): Promise<unknown> {
		const pending = this.#pending.get(key);
		return pending ? pending.value : this.#store.draft(key);
	}

	keep(key: string, value: unknown): void {
		const pending = this.#pending.get(key);
		if (pending) {
			pending.value = value;
			pending.dirty = true;
			return;
		}
		const fresh: Pending = { value, dirty: true, done: Promise.resolve() };
		fresh.done = this.#drain(key, fresh);
		this.#pending.set(key, fresh);
	}

	async #drain(key: string, pending: Pending): Promise<void> {
		await Promise.resolve();
		try {
			while (pending.dirty) {
				pending.dirty = false;
				if (pending.value === undefined) await this.#store.dropDraft(key);
				else await this.#store.saveDraft(key, pending.value);
			}
		} catch (why) {
			this.onFault(why);
		} finally {
			this.#pending.delete(key);
		}
	}

	async drop(key: string): Promise<void> {
		this.keep(key, undefined);
		await this.#pending.get(key)?.done;
	}

	/** Resolves when everything handed over has been written. */
	async settled(): Promise<void> {
		while (this.#pending.size > 0) {
			await Promise.all([...this.#pending.values()].map((p) => p.done));
		}
	}
}
