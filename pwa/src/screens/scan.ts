// The scanner: the camera's picture in a frame, and the code by hand one tap
// away. A label of this household opens its tray; anything else is named and
// left alone.

import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import type { App, ScreenArgs } from "../app-api.ts";
import { Camera, type CameraFault } from "../device/camera.ts";
import { chooseDecoder, type Decoder, nearest, ReaderDecoder } from "../device/decoder.ts";
import { header, section } from "../parts/header.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import { scriptURL } from "../trusted.ts";
import { judge, type Read } from "./scan-read.ts";

// A hand holds still for a moment; more readings only warm the phone.
const PAUSE_MS = 90;

type Trouble = CameraFault | "reader";

export class ScanScreen extends Light {
	static override properties = {
		app: { attribute: false },
		args: { attribute: false },
		camera: { state: true },
		trouble: { state: true },
		lit: { state: true },
		refused: { state: true },
	};
	declare app: App;
	declare args: ScreenArgs;
	declare camera: Camera | undefined;
	declare trouble: Trouble | undefined;
	declare lit: boolean;
	declare refused: Exclude<Read, { kind: "label" }> | undefined; // the last code that opens nothing
	#visit = 0; // counts starts: what an earlier one still brings is passed over
	#decoder: Decoder | undefined;
	#passed = ""; // text of the code that was judged last
	#leaving = new AbortController();

	constructor() {
		super();
		this.lit = false;
	}

	override connectedCallback(): void {
		super.connectedCallback();
		this.#leaving = new AbortController();
		document.addEventListener(
			"visibilitychange",
			() => {
				if (document.hidden) this.#stop();
				else if (!this.camera && !this.trouble) void this.#start();
			},
			{ signal: this.#leaving.signal },
		);
		void this.#start();
	}

	override disconnectedCallback(): void {
		this.#leaving.abort();
		this.#stop();
		super.disconnectedCallback();
	}

	async #start(): Promise<void> {
		const visit = ++this.#visit;
		this.trouble = undefined;
		const camera = await Camera.open(navigator.mediaDevices);
		if (typeof camera === "string") {
			if (visit === this.#visit) this.trouble = camera;
			return;
		}
		if (visit !== this.#visit) {
			camera.close();
			return;
		}
		camera.onTaken(() => this.#fail("busy"));
		this.camera = camera;
		const found = (globalThis as { BarcodeDetector?: unknown }).BarcodeDetector;
		const decoder = await chooseDecoder(
			found,
			() => new ReaderDecoder(new Worker(scriptURL(READER_URL), { type: "module" })),
		);
		if (visit !== this.#visit) {
			decoder.close();
			return;
		}
		this.#decoder = decoder;
		await this.#look(visit, decoder);
	}

	#stop(): void {
		this.#visit++;
		this.#decoder?.close();
		this.#decoder = undefined;
		this.camera?.close();
		this.camera = undefined;
		this.lit = false;
	}

	#fail(why: Trouble): void {
		if (!this.camera) return; // it was let go, not taken
		this.#stop();
		this.trouble = why;
	}

	/** Reads picture after picture until a label opens its tray. */
	async #look(visit: number, decoder: Decoder): Promise<void> {
		while (visit === this.#visit) {
			const video = this.querySelector("video");
			if (video && video.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA) {
				try {
					const seen = nearest(await decoder.read(video));
					if (seen && visit === this.#visit) await this.#found(seen.text);
				} catch {
					if (visit === this.#visit) this.#fail("reader");
					return;
				}
			}
			await new Promise((next) => setTimeout(next, PAUSE_MS));
		}
	}

	async #found(said: string): Promise<void> {
		if (said === this.#passed) return;
		this.#passed = said;
		const read = judge(said, location.origin);
		if (read.kind === "label" || (read.kind === "elsewhere" && (await this.#ours(read.code)))) {
			// Browsers complain when nobody has touched the page yet.
			if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.(40);
			this.app.say(text.scan.read);
			this.app.go(`/t/${encodeURIComponent(read.code)}`);
			return;
		}
		this.refused = read;
	}

	/** A label printed when the server had another name is still the household's. */
	async #ours(code: string): Promise<boolean> {
		try {
			const { found } = (await this.app.view("tray", { arg: code })).data;
			return found === "tray" || found === "removed";
		} catch {
			return false;
		}
	}

	async #light(): Promise<void> {
		const on = !this.lit;
		if (await this.camera?.light(on)) this.lit = on;
	}

	/** A stream is no attribute. */
	protected override updated(changed: PropertyValues): void {
		const video = this.querySelector("video");
		if (changed.has("camera") && video) video.srcObject = this.camera?.stream ?? null;
	}

	override render(): TemplateResult {
		const words = text.scan;
		return html`<main class="page">
			${header({ title: words.title })}
			${this.trouble ? this.#sorry(this.trouble) : this.#finder()}
			<div class="foot"><div class="act">
				${
					this.trouble && this.trouble !== "insecure"
						? html`<button type="button" class="plain" @click=${() => void this.#start()}>${words.again}</button>`
						: nothing
				}
				${
					this.camera?.hasLight
						? html`<button type="button" class="plain" aria-pressed=${this.lit} @click=${() => void this.#light()}>${words.light}</button>`
						: nothing
				}
				<a class="go ink" href="/t">${words.type}</a>
			</div></div>
		</main>`;
	}

	#finder(): TemplateResult {
		const words = text.scan;
		return html`<div class="finder ${this.camera ? "on" : ""}">
				<video playsinline muted autoplay aria-label=${words.picture}></video>
				<svg viewBox="0 0 100 100" preserveAspectRatio="xMidYMid meet" aria-hidden="true">
					<path class="under" d=${corners}/><path d=${corners}/>
				</svg>
			</div>
			${
				this.refused
					? this.#refusal(this.refused)
					: html`<p class="hold" role="status">${this.camera ? words.hold : words.starting}</p>`
			}`;
	}

	#refusal(read: Exclude<Read, { kind: "label" }>): TemplateResult {
		const { not, notHint } = text.scan;
		const said =
			read.kind === "elsewhere" || read.kind === "web" ? not[read.kind](read.host) : not[read.kind];
		return html`<div class="notice" role="alert"><div><p>${said}</p><p class="second">${notHint}</p></div></div>`;
	}

	#sorry(trouble: Trouble): TemplateResult {
		const { title, words } = text.scan.troubles[trouble];
		return html`<section role="alert">${section(title)}<p>${words}</p></section>`;
	}
}

// Four corners of a square, ruled like everything that is made.
const corners = "M22 34V22H34M66 22H78V34M78 66V78H66M34 78H22V66";

customElements.define("scan-screen", ScanScreen);

declare global {
	interface HTMLElementTagNameMap {
		"scan-screen": ScanScreen;
	}
}
