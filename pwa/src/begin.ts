// The phone begins before the screens are set up. This is the page's first script:
// while the second is being read, the storage opens and the last view of this
// address comes out of it.

import { Phone } from "./device/phone.ts";
import { browserTabs } from "./device/tabs.ts";
import { Update } from "./device/update.ts";
import { read } from "./router.ts";
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

const { place, args } = read(new URL(location.href));
void phone.start(
	place === "tray" ? { screen: "tray", args: { arg: args.arg } } : { screen: "today", args: {} },
);
