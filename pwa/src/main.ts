// The page's second script: the shell and the service worker. The first is begin.ts.

import "./styles/tokens.css";
import "./styles/base.css";
import "./styles/pens.css";
import "./styles/parts.css";
import "./styles/screens.css";
import "./styles/section.css";
import "./styles/tasks.css";
import "./styles/visit.css";
import "./styles/phone.css";
import "./styles/labels.css";
import "./styles/bins.css";
import "./styles/scan.css";
import "./styles/photos.css";
import { TraysideApp } from "./app.ts";
import { phone, update } from "./begin.ts";
import { fetchLater } from "./device/fetch-later.ts";
import { language } from "./language.ts";

document.documentElement.lang = language;

const app = new TraysideApp();
app.phone = phone;
app.versions = update;
document.body.append(app);
// Without a secure context there is no service worker; the app says what that
// means when it tries to make a key.
if ("serviceWorker" in navigator) {
	void update.start().catch(() => {});
	void fetchLater((globalThis as { BarcodeDetector?: unknown }).BarcodeDetector);
}
