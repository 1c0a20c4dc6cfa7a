// Where the page begins: the phone, the shell, the service worker.

import "./styles/tokens.css";
import "./styles/base.css";
import "./styles/pens.css";
import "./styles/parts.css";
import "./styles/screens.css";
import "./styles/section.css";
import "./styles/tasks.css";
import "./styles/phone.css";
import "./screens/code.ts";
import "./screens/household.ts";
import "./screens/join.ts";
import "./screens/look.ts";
import "./screens/more.ts";
import "./screens/timeline.ts";
import "./screens/today.ts";
import "./screens/tray.ts";
import "./screens/weigh.ts";
import { TraysideApp } from "./app.ts";
import { Phone } from "./device/phone.ts";
import { browserTabs } from "./device/tabs.ts";
import { Update } from "./device/update.ts";
import { language } from "./language.ts";
import { scriptURL } from "./trusted.ts";

document.documentElement.lang = language;

const reload = (): void => location.reload();

const update = new Update({
	container: navigator.serviceWorker,
	register: () => navigator.serviceWorker.register(scriptURL("/sw.js")),
	settled: () => phone.settled(),
	reload,
});

const phone = new Phone({
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

const app = new TraysideApp();
app.phone = phone;
app.versions = update;
document.body.append(app);
void phone.start();
// Without a secure context there is no service worker; the app says what that
// means when it tries to make a key.
if ("serviceWorker" in navigator) void update.start().catch(() => {});
