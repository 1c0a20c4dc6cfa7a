// A new version of the app. It waits until somebody says "use it now"; then
// drafts are written, the new version takes over, and every tab reloads.

export interface UpdateWorld {
	container: ServiceWorkerContainer;
	register(): Promise<ServiceWorkerRegistration>;
	/** Resolves when every draft is written. */
	settled(): Promise<void>;
	reload(): void;
}

// A tab that stays open for days looks for a new version now and then.
const LOOK_MS = 60 * 60_000;

export class Update {
	#world: UpdateWorld;
	#registration: ServiceWorkerRegistration | undefined;
	onReady: () => void = () => {};

	constructor(world: UpdateWorld) {
		this.#world = world;
	}

	async start(): Promise<void> {
		const { container } = this.#world;
		// The very first service worker takes no page over: nothing to reload.
		let controlled = container.controller !== null;
		container.addEventListener("controllerchange", () => {
			if (controlled) void this.#world.settled().then(() => this.#world.reload());
			controlled = true;
		});
		const registration = await this.#world.register();
		this.#registration = registration;
		const look = () => {
			if (registration.waiting && container.controller) this.onReady();
		};
		look();
		registration.addEventListener("updatefound", () => {
			registration.installing?.addEventListener("statechange", look);
		});
		setInterval(() => void this.probe().catch(() => {}), LOOK_MS);
	}

	/** Looks for a new version; rejects when its script can't be had. */
	async probe(): Promise<void> {
		await this.#registration?.update();
	}

	async use(): Promise<void> {
		await this.#world.settled();
		this.#registration?.waiting?.postMessage({ type: "SKIP_WAITING" });
	}
}
