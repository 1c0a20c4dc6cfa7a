// The sync line: what this phone knows and what it doesn't, on every screen.

import { html, nothing } from "lit";
import type { PhoneState } from "./device/phone.ts";
import { Light } from "./parts/light.ts";
import { sentences } from "./sync-words.ts";

export class SyncLine extends Light {
	static override properties = { state: { attribute: false }, now: { attribute: false } };
	declare state: PhoneState | undefined;
	declare now: number;

	override render() {
		if (this.state?.phase !== "joined") return nothing;
		const said = sentences(this.state, this.now).join(" · ");
		return html`<a class="sync-line" href="/household#exchange" data-state=${this.state.sync.state}
			>${said}</a
		>`;
	}
}

customElements.define("sync-line", SyncLine);
