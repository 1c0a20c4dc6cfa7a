// Several tabs of one phone: one leads and talks to the server, the others hear
// from it. Leading is a lock of the browser, so a tab that crashes gives it up.

/** What tabs tell each other. */
export type TabNews =
	| { kind: "saved" } // entries or roster texts were added to the storage
	| { kind: "changed" } // entries came from the household
	| { kind: "refused" } // an entry has left the set
	| { kind: "status"; status: unknown }
	| { kind: "tap" } // somebody asked for an exchange
	| { kind: "wiped"; reason: string };

export interface TabWorld {
	/** Calls `lead` when this tab has the lead, and holds it for ever; `waited`
	 * says whether another tab had it first. */
	lock(name: string, lead: (waited: boolean) => Promise<never>): void;
	channel(name: string): {
		postMessage(news: TabNews): void;
		onmessage: ((event: MessageEvent<TabNews>) => void) | null;
	};
}

export class Tabs {
	#channel: ReturnType<TabWorld["channel"]>;
	#leading = false;
	#world: TabWorld;

	constructor(world: TabWorld, hear: (news: TabNews) => void) {
		this.#world = world;
		this.#channel = world.channel("trayside");
		this.#channel.onmessage = ({ data }) => hear(data);
	}

	get leading(): boolean {
		return this.#leading;
	}

	/** Waits for the lead; `lead` is told whether another tab had it before. */
	run(lead: (waited: boolean) => void): void {
		this.#world.lock("trayside-exchange", (waited) => {
			this.#leading = true;
			lead(waited);
			return new Promise<never>(() => {});
		});
	}

	tell(news: TabNews): void {
		this.#channel.postMessage(news);
	}
}

/** The browser's own locks and channels. Without locks (no secure context) a
 * tab leads alone. */
export const browserTabs: TabWorld = {
	lock(name, lead) {
		if (!navigator.locks) {
			void lead(false);
			return;
		}
		// How long a free lock takes to come says nothing, so it is asked for first
		// as it is.
		void navigator.locks.request(name, { ifAvailable: true }, (free) => {
			if (free) return lead(false);
			void navigator.locks.request(name, () => lead(true));
			return undefined;
		});
	},
	channel: (name) => new BroadcastChannel(name),
};
