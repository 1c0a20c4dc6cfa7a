// The phone begins before the screens are set up: while their script is being
// read, the storage opens and the engine starts.

import { Phone } from "./device/phone.ts";
import { browserTabs } from "./device/tabs.ts";
import { Update } from "./device/update.ts";
import { scriptURL } from "./trusted.ts";

const reload = (): void => location.reload();

export const update = new Update({
	container: navigator.serviceWorker,
	register: () => navigator.serviceWorker.register(scriptURL("/sw.js")),
	settled: () => phone.settled(),
	reload,
});

export const phone = new Phone({
	makeWorker: () => new Worker(scriptURL(WORKER_URL), { type: "module" }),
	// Its hash covers the address of the engine, which carries a hash of its own.
	engineName: WORKER_URL,
	net: {
		fetch: (...request) => fetch(...request),
		online: () => navigator.onLine,
		probe: () => update.probe(),
	},
	tabs: browserTabs,
	persist: async () => (await navigator.storage?.persist?.()) ?? false,
	reload,
});

void phone.start();
