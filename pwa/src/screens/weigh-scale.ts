// A Bluetooth scale beside the keypad: what it shows goes into the keypad's
// figure once it stands still. Nothing is ever added by itself.

import { html, type ReactiveController, type TemplateResult } from "lit";
import { BluetoothFault, connectScale, type Scale, type ScaleDoes } from "../device/bluetooth.ts";
import { type Resting, resting, STILL_MS, type Unread, type Weighed } from "../device/gatt.ts";
import { GRAMS_PER_OUNCE, type Mass, number, weight } from "../format.ts";
import { text } from "../strings.ts";
import type { Unit } from "./weigh-bowl.ts";

/** The figure that the keypad would have been typed for a reading, at most as
 * fine as the scale is. */
export function figure(is: Weighed, mass: Mass): { typed: string; unit: Unit } {
	if (mass === "g") return { typed: String(Math.round(is.grams)), unit: "g" };
	if (is.imperial) return { typed: (is.hundredths / 100).toFixed(2), unit: "lb" };
	return { typed: (is.grams / GRAMS_PER_OUNCE).toFixed(1), unit: "oz" };
}

/** The scale's step as the household reads weights. */
function stepWords(scale: Scale, imperial: boolean, mass: Mass): string {
	const { grams, pounds } = scale.step;
	return imperial && mass === "oz"
		? `${number(pounds, 2)}\u00a0lb`
		: weight(imperial ? Math.ceil(pounds * GRAMS_PER_OUNCE * 16) : grams, mass);
}

export interface ScaleHost {
	addController(controller: ReactiveController): void;
	requestUpdate(): void;
}

export class ScaleReader implements ReactiveController {
	readonly #host: ScaleHost;
	readonly #still: (is: Weighed) => void;
	readonly #connect: typeof connectScale;
	#scale: Scale | undefined;
	#choosing = false;
	#fault = "";
	#seen: Weighed | undefined;
	#rest: Resting | undefined;
	#told: number | undefined; // the weight that was handed on last, g
	#timer: ReturnType<typeof setTimeout> | undefined;

	/** `still` hears of each weight that the scale came to rest at. */
	constructor(host: ScaleHost, still: (is: Weighed) => void, connect = connectScale) {
		this.#host = host;
		this.#still = still;
		this.#connect = connect;
		host.addController(this);
	}

	hostDisconnected(): void {
		this.leave();
	}

	leave(): void {
		clearTimeout(this.#timer);
		this.#scale?.close();
		this.#scale = this.#seen = this.#rest = this.#told = undefined;
		this.#host.requestUpdate();
	}

	/** Must come straight from a tap. */
	async choose(): Promise<void> {
		this.#choosing = true;
		this.#fault = "";
		this.#host.requestUpdate();
		const does: ScaleDoes = {
			reading: (is) => this.#reading(is),
			lost: () => {
				this.leave();
				this.#fault = text.weigh.scale.lost;
			},
		};
		try {
			this.#scale = await this.#connect(does);
		} catch (why) {
			const no = why instanceof BluetoothFault ? why.why : "lost";
			this.#fault = text.weigh.scale.no[no] ?? "";
		}
		this.#choosing = false;
		this.#host.requestUpdate();
	}

	#reading(is: Weighed | Unread): void {
		clearTimeout(this.#timer);
		this.#host.requestUpdate();
		if (typeof is === "string") {
			this.#fault = text.weigh.scale.unread[is] ?? "";
			this.#seen = this.#rest = undefined;
			return;
		}
		this.#fault = "";
		this.#seen = is;
		const step = is.imperial ? this.#poundStep() : (this.#scale?.step.grams ?? 5);
		this.#rest = resting(this.#rest, is.grams, step, performance.now());
		const left = Math.max(0, this.#rest.since + STILL_MS - performance.now());
		this.#timer = setTimeout(() => this.#settle(is), left);
	}

	#poundStep(): number {
		return (this.#scale?.step.pounds ?? 0.01) * GRAMS_PER_OUNCE * 16;
	}

	#settle(is: Weighed): void {
		if (this.#told === is.grams) return;
		this.#told = is.grams;
		this.#still(is);
		this.#host.requestUpdate();
	}

	row(mass: Mass): TemplateResult {
		const words = text.weigh.scale;
		const scale = this.#scale;
		if (!scale) {
			return html`<div class="scalerow"><p class="second" role="status">${this.#choosing ? words.choosing : this.#fault || words.what}</p>
				<button type="button" class="plain" ?disabled=${this.#choosing} @click=${() => void this.choose()}>${this.#fault ? words.again : words.connect}</button></div>`;
		}
		const name = scale.name || words.name;
		const seen = this.#seen;
		const still = seen !== undefined && this.#told === seen.grams;
		const amount = seen ? weight(seen.grams, mass) : "";
		const says = this.#fault
			? this.#fault
			: !seen
				? words.waiting(name)
				: still
					? words.still(name, amount)
					: words.moving(name, amount);
		return html`<div class="scalerow"><p role="status">${says} <span class="second line">${words.step(stepWords(scale, seen?.imperial ?? false, mass))}</span></p>
			<button type="button" class="plain" @click=${() => this.leave()}>${words.leave}</button></div>`;
	}
}
