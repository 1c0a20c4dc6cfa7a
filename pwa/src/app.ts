// The shell: one element that holds the screen of the current address, the sync
// line, the places, and what the whole app must be able to say. It implements
// the App that screens are given.

import { html, nothing, type TemplateResult } from "lit";
import type { App, Recorded, ScreenArgs, ScreenName, Shown, ViewArgs, Views } from "./app-api.ts";
import type { Phone } from "./device/phone.ts";
import type { Update } from "./device/update.ts";
import { endGlance, type Words } from "./glance.ts";
import { Light } from "./parts/light.ts";
import { placesStrip } from "./parts/places.ts";
import { inside, type Place, type Route, read } from "./router.ts";
import { bringRest, bringRestLater, here } from "./screens.ts";
import { text } from "./strings.ts";
import type { Intent } from "./types.gen.ts";
import "./sync-line.ts";
import { arriving } from "./sync-words.ts";

// Words for the document's title.
const titles: Record<Place, string> = {
	today: text.app.today,
	tray: text.app.tray,
	code: text.app.code,
	scan: text.scan.title,
	weigh: text.app.weigh,
	bin: text.bins.title,
	plan: text.plan.title,
	food: text.food.title,
	timeline: text.app.timeline,
	freezer: text.freezer.title,
	household: text.app.household,
	labels: text.labels.title,
	card: text.card.title,
	look: text.places.look,
	trouble: text.trouble.title,
	harvest: text.harvest.title,
	"catch-up": text.catchUp.title,
	more: text.places.more,
	join: text.app.join,
	lost: text.app.notFound,
};

export class TraysideApp extends Light implements App {
	static override properties = {
		route: { state: true },
		said: { state: true },
		updateReady: { state: true },
		missing: { state: true },
	};
	declare route: Route;
	declare said: string;
	declare updateReady: boolean;
	declare missing: boolean; // the place's script could not be had
	/** Set by main.ts before the element is put into the page. */
	phone!: Phone;
	versions!: Update;
	#listening = new AbortController();
	#focusNext = false;

	constructor() {
		super();
		this.route = read(new URL(location.href));
		this.said = "";
		this.updateReady = false;
		this.missing = false;
	}

	override connectedCallback(): void {
		super.connectedCallback();
		this.#listening = new AbortController();
		const { signal } = this.#listening;
		signal.addEventListener(
			"abort",
			this.phone.watch(() => this.#stateChanged()),
		);
		this.versions.onReady = () => {
			this.updateReady = true;
		};
		window.addEventListener("popstate", () => this.#arrive(), { signal });
		document.addEventListener("click", (event) => this.#click(event), { signal });
		this.#arrive(false);
		this.#stateChanged(); // the phone began before this page's shell did
		bringRestLater();
	}

	override disconnectedCallback(): void {
		this.#listening.abort();
		super.disconnectedCallback();
	}

	// The App that screens see.

	view<S extends ScreenName>(screen: S, args?: ViewArgs): Promise<Shown<Views[S]>> {
		const shown = this.phone.view(screen, args);
		// The screen has drawn it when the next frame comes.
		const takeOver = () => requestAnimationFrame(endGlance);
		void shown.then(takeOver, takeOver);
		return shown;
	}

	keepGlance(arg: string, words: Words | undefined): void {
		this.phone.keepGlance(arg, words);
	}

	record(intent: Intent): Promise<Recorded> {
		return this.phone.record(intent);
	}

	onChange(run: () => void): () => void {
		return this.phone.onChange(run);
	}

	draft(key: string): Promise<unknown> {
		return this.phone.draft(key);
	}

	keepDraft(key: string, value: unknown): void {
		this.phone.keepDraft(key, value);
	}

	dropDraft(key: string): Promise<void> {
		return this.phone.dropDraft(key);
	}

	now(): number {
		return this.phone.now();
	}

	day(ms?: number): string {
		return this.phone.day(ms);
	}

	heard(): number {
		return this.phone.heard();
	}

	get photos(): App["photos"] {
		return this.phone.photos;
	}

	me(): ReturnType<App["me"]> {
		return this.phone.me();
	}

	/** A sentence that repeats is said again: the region is emptied first. */
	say(sentence: string): void {
		this.said = "";
		requestAnimationFrame(() => {
			this.said = sentence;
		});
	}

	go(path: string): void {
		const url = new URL(path, location.origin);
		if (url.href !== location.href) history.pushState(null, "", url);
		this.#arrive();
	}

	/** Whether the glance at a tray may stand until its view has come. */
	#waits(): boolean {
		const { state } = this.phone;
		const well = state.storage === "fine" && state.engine !== "broken" && !this.missing;
		const home = state.phase === "starting" || (state.phase === "joined" && !arriving(state));
		return well && home && this.route.place === "tray";
	}

	#stateChanged(): void {
		// A phone that has joined nothing has one place to be; the label it was
		// opened with stays in the address, to come back to.
		if (this.phone.state.phase === "new" && this.route.place !== "join") {
			const { place, args } = this.route;
			const label = place === "tray" ? `?label=${encodeURIComponent(args.arg)}` : "";
			history.replaceState(null, "", `/join${label}`);
			this.#arrive(false);
		}
		this.requestUpdate();
	}

	#arrive(focus = true): void {
		this.route = read(new URL(location.href));
		this.#title();
		this.#focusNext = focus;
		if (focus) scrollTo(0, 0);
	}

	/** The script of the other screens is on its way. */
	#bringRest(): TemplateResult {
		void bringRest().then(
			() => this.requestUpdate(),
			() => {
				this.missing = true;
			},
		);
		return html`<main class="page"><p role="status">${text.app.starting}</p></main>`;
	}

	/** A screen that knows better (a tray's name) sets document.title itself. */
	#title(): void {
		document.title = text.app.title(titles[this.route.place]);
	}

	#click(event: MouseEvent): void {
		const url = inside(event, location.origin);
		if (!url) return;
		event.preventDefault();
		this.go(url.pathname + url.search + url.hash);
	}

	/** After going somewhere the focus is at the start of the new page, or at
	 * the part its address names. */
	override updated(): void {
		if (!this.#waits()) endGlance();
		if (!this.#focusNext) return;
		this.#focusNext = false;
		requestAnimationFrame(() => {
			const named = location.hash ? document.getElementById(location.hash.slice(1)) : null;
			if (named) named.scrollIntoView();
			(named ?? document.getElementById("page"))?.focus({ preventScroll: named !== null });
		});
	}

	override render() {
		const { state } = this.phone;
		return html`
			<a class="skip" href="#page" @click=${this.#skip}>${text.app.skip}</a>
			${this.#notices()}
			<sync-line .state=${state} .now=${this.phone.now()}></sync-line>
			<div id="page" tabindex="-1">${this.#screen()}</div>
			${
				state.phase === "joined" && this.route.place !== "weigh"
					? placesStrip(location.pathname)
					: nothing
			}
			<div class="live" role="status" aria-live="polite">${this.said}</div>
		`;
	}

	#skip(event: Event): void {
		event.preventDefault();
		document.getElementById("page")?.focus();
	}

	#screen(): TemplateResult | typeof nothing {
		const { place, args } = this.route;
		const { state } = this.phone;
		if (place === "join" || state.phase === "new") {
			if (!here("join")) return this.#bringRest();
			return html`<join-screen .app=${this} .args=${args} .phone=${this.phone}></join-screen>`;
		}
		if (state.phase === "starting") {
			return html`<main class="page"><p role="status">${text.app.starting}</p></main>`;
		}
		if (arriving(state) && (place === "today" || place === "tray")) {
			return html`<main class="page">
				<h1>${text.app.arriving}</h1>
				<p role="status">${text.app.arrivingLead}</p>
				<p><a class="textlink" href="/weigh">${text.app.toWeigh}</a></p>
			</main>`;
		}
		return here(place) ? this.#inside(place, args) : this.#bringRest();
	}

	#inside(place: Place, args: ScreenArgs): TemplateResult {
		switch (place) {
			case "today":
				return html`<today-screen .app=${this} .args=${args}></today-screen>`;
			case "tray":
				return html`<tray-screen .app=${this} .args=${args}></tray-screen>`;
			case "code":
				return html`<code-screen .app=${this} .args=${args}></code-screen>`;
			case "scan":
				return html`<scan-screen .app=${this} .args=${args}></scan-screen>`;
			case "weigh":
				return html`<weigh-screen .app=${this} .args=${args}></weigh-screen>`;
			case "bin":
				return html`<bin-screen .app=${this} .args=${args}></bin-screen>`;
			case "plan":
				return html`<plan-screen .app=${this} .args=${args}></plan-screen>`;
			case "food":
				return html`<food-screen .app=${this} .args=${args}></food-screen>`;
			case "timeline":
				return html`<timeline-screen .app=${this} .args=${args}></timeline-screen>`;
			case "labels":
				return html`<labels-screen .app=${this} .args=${args} .phone=${this.phone}></labels-screen>`;
			case "card":
				return html`<card-screen .app=${this} .args=${args}></card-screen>`;
			case "freezer":
				return html`<freezer-screen .app=${this} .args=${args}></freezer-screen>`;
			case "look":
				return html`<look-screen .app=${this} .args=${args}></look-screen>`;
			case "trouble":
				return html`<trouble-screen .app=${this} .args=${args}></trouble-screen>`;
			case "harvest":
				return html`<harvest-screen .app=${this} .args=${args}></harvest-screen>`;
			case "catch-up":
				return html`<catch-up-screen .app=${this} .args=${args}></catch-up-screen>`;
			case "more":
				return html`<more-screen></more-screen>`;
			case "household":
				return html`<household-screen .app=${this} .phone=${this.phone}></household-screen>`;
			default:
				return html`<main class="page">
					<h1>${text.app.notFound}</h1>
					<p><a class="textlink" href="/">${text.app.toToday}</a></p>
				</main>`;
		}
	}

	#notices(): TemplateResult[] {
		const { state } = this.phone;
		const words = text.app;
		const notices: TemplateResult[] = [];
		const plain = (sentence: string) => {
			notices.push(html`<p>${sentence}</p>`);
		};
		if (state.storage === "blocked") plain(words.storageBlocked);
		if (state.storage === "locked") plain(words.storageLocked);
		if (state.storage === "broken") plain(words.storageBroken);
		if (state.storage === "outdated") {
			notices.push(html`<p>${words.storageOutdated}</p>
				<button type="button" class="plain" @click=${() => location.reload()}>${words.reload}</button>`);
		}
		if (state.engine === "broken") plain(words.engineBroken);
		if (this.missing) {
			notices.push(html`<p>${words.missing}</p>
				<button type="button" class="plain" @click=${() => location.reload()}>${words.reload}</button>`);
		}
		if (state.draftFault) plain(words.draftFault);
		if (state.clockOff > 0) plain(words.clockAhead(state.clockOff));
		if (state.clockOff < 0) plain(words.clockBehind(state.clockOff));
		if (this.updateReady) {
			notices.push(html`<p>${words.updateReady} ${words.updateKeeps}</p>
				<button type="button" class="plain" @click=${() => this.versions.use()}>
					${words.updateNow}
				</button>`);
		}
		return notices.map((notice) => html`<div class="shell-notice" role="alert">${notice}</div>`);
	}
}

customElements.define("trayside-app", TraysideApp);
