// A label that is on no tray, or on one that was taken out: a keeper says at the
// bin which tray it is stuck on, or adds a new tray for it.

import { html, nothing, type TemplateResult } from "lit";
import { header, section } from "../parts/header.ts";
import { Screen } from "../parts/screen.ts";
import { text } from "../strings.ts";
import type { Intent, LabelBin, LabelTray, TrayView } from "../types.gen.ts";
import { faultWords } from "../words.ts";

const SMALLEST = 50;
const LARGEST = 2000;

/** The code as it is printed: 3K7-AB2-9QX. */
export const groups = (code: string): string =>
	code.length === 9 ? `${code.slice(0, 3)}-${code.slice(3, 6)}-${code.slice(6)}` : code;

/** Those who need a label come first. */
export function byNeed(trays: LabelTray[]): LabelTray[] {
	const rank = (t: LabelTray): number => (t.code ? 2 : t.empty ? 1 : 0);
	return [...trays].sort((a, b) => rank(a) - rank(b));
}

export class LabelsClaim extends Screen<"labels"> {
	static override properties = {
		...Screen.properties,
		view: { attribute: false },
		adding: { state: true },
		fault: { state: true },
	};
	declare view: TrayView;
	/** Bin that gets a new tray, "" for none. */
	declare adding: string;
	declare fault: string;
	protected override readonly screen = "labels";

	constructor() {
		super();
		this.adding = "";
		this.fault = "";
	}

	override render() {
		const words = text.claim;
		const { found, name = "", code = "" } = this.view;
		const removed = found === "removed";
		const title = removed ? words.titleRemoved : words.title;
		const keeper = this.app.me().role === "keeper";
		const lead = removed ? words.removed(name) : keeper ? words.keeper(groups(code)) : words.feeder;
		return html`<main class="page claim">
			${header({ title: removed ? name : title, sub: removed ? title : groups(code), back: "/" })}
			<p>${lead}</p>
			${keeper && code ? this.#choose() : nothing}
			${keeper && !removed ? html`<p class="second">${words.waiting}</p>` : nothing}
			${section(words.again)}
			<form @submit=${this.#again}>
				<label class="field">${text.tray.codeLabel}<input class="code" name="code" type="text" maxlength="40" autocomplete="off" autocapitalize="characters" spellcheck="false"></label>
				<button type="submit" class="plain wide">${text.tray.codeOpen}</button>
			</form>
		</main>`;
	}

	#again = (e: SubmitEvent): void => {
		e.preventDefault();
		const field = (e.currentTarget as HTMLFormElement).elements.namedItem("code");
		if (!(field instanceof HTMLInputElement)) return;
		if (field.value.trim()) this.app.go(`/t/${encodeURIComponent(field.value.trim())}`);
		else field.focus();
	};

	#choose(): TemplateResult {
		const words = text.claim;
		const bins = this.shown?.data.bins ?? [];
		if (this.shown && bins.length === 0) return html`<p>${words.noBins}</p>`;
		return html`${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
			${bins.map(
				(bin) => html`${section(words.here(bin.name))}
				<div class="picks column" role="group" aria-label=${`${words.put}: ${words.here(bin.name)}`}>
					${byNeed(bin.trays).map((tray) => this.#tray(tray))}
					${
						this.adding === bin.id
							? this.#form(bin)
							: html`<button type="button" class="pickword" @click=${() => this.#add(bin)}>${words.fresh(bin.name)}</button>`
					}
				</div>`,
			)}`;
	}

	#tray(tray: LabelTray): TemplateResult {
		const words = text.claim;
		const says = tray.code ? words.has(groups(tray.code)) : tray.empty ? words.empty : words.bare;
		return html`<button type="button" class="pickword" @click=${() => void this.#claim(tray.id, tray.name)}>
			<b>${tray.name}</b> <span class="second">${says}</span></button>`;
	}

	#add(bin: LabelBin): void {
		this.adding = bin.id;
		void this.updateComplete.then(() => this.querySelector<HTMLInputElement>("#new-tray")?.focus());
	}

	#form(bin: LabelBin): TemplateResult {
		const words = text.claim;
		const size = (name: string, label: string, value: number) =>
			html`<label class="field">${label}<input name=${name} type="text" inputmode="numeric" maxlength="4" autocomplete="off" .value=${value ? String(value) : ""}></label>`;
		return html`<form class="newtray" novalidate @submit=${(e: SubmitEvent) => void this.#save(e, bin)}>
			<label class="field">${words.name}<input id="new-tray" name="name" type="text" maxlength="40" autocomplete="off"></label>
			${size("width", words.width, bin.width)}${size("depth", words.depth, bin.depth)}${size("height", words.height, bin.height)}
			<div class="act"><button type="button" class="plain" @click=${() => {
				this.adding = "";
			}}>${words.cancel}</button><button type="submit" class="go ink">${words.add}</button></div>
		</form>`;
	}

	async #save(e: SubmitEvent, bin: LabelBin): Promise<void> {
		e.preventDefault();
		const form = new FormData(e.currentTarget as HTMLFormElement);
		const name = String(form.get("name") ?? "").trim();
		const [width, depth, height] = ["width", "depth", "height"].map((k) => Number(form.get(k)));
		if (!name) {
			this.fault = text.claim.needName;
			this.querySelector<HTMLInputElement>("#new-tray")?.focus();
			return;
		}
		const fits = (mm: number | undefined): boolean =>
			mm !== undefined && Number.isInteger(mm) && mm >= SMALLEST && mm <= LARGEST;
		if (![width, depth, height].every(fits)) {
			this.fault = text.claim.needSize;
			return;
		}
		const made = await this.#record({
			do: "tray",
			bin: bin.id,
			set: { name, width, depth, height },
		});
		if (!made) return;
		const trays = [...bin.trays.map((t) => t.id).reverse(), made];
		if (await this.#record({ do: "stack", bin: bin.id, set: { trays } })) {
			await this.#claim(made, name);
		}
	}

	async #claim(tray: string, name: string): Promise<void> {
		const code = this.view.code ?? "";
		if (await this.#record({ do: "claim", tray, set: { code } })) {
			this.app.say(text.claim.done(groups(code), name));
		}
	}

	/** Returns the entry, or "" with the fault shown. */
	async #record(intent: Intent): Promise<string> {
		this.fault = "";
		const answer = await this.app.record(intent);
		if (answer.ok) return answer.entity;
		this.fault = faultWords(answer.fault, "g", 0);
		return "";
	}
}

customElements.define("labels-claim", LabelsClaim);
