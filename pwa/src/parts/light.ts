// What every element of the app is built on. Elements live in the page's own
// tree, not behind a shadow root: one set of styles, labels that reach across
// elements, and one outline for screen readers.

import { LitElement } from "lit";

export class Light extends LitElement {
	protected override createRenderRoot(): this {
		return this;
	}
}
