// Add a phone: whose it is and what it may do, the invite to scan or type, and
// the confirmation when both screens show the same number.

import { html, nothing, type TemplateResult } from "lit";
import type { App } from "../app-api.ts";
import { type Invite, Invites, Refused, type Waiting } from "../device/invites.ts";
import { deviceKey } from "../device/keys.ts";
import { NetFault } from "../device/net.ts";
import type { Phone } from "../device/phone.ts";
import { clockTime } from "../format.ts";
import { Light } from "../parts/light.ts";
import { text } from "../strings.ts";
import type { HouseholdView } from "../types.gen.ts";
import { problemWords } from "../words.ts";
import { notSaved } from "./household-setup.ts";
import "../parts/qr-code.ts";

// Two people stand side by side and wait.
const POLL_MS = 2_000;

export class AddPhone extends Light {
	static override properties = {
		app: { attribute: false },
		phone: { attribute: false },
		household: { attribute: false },
		invite: { state: true },
		waiting: { state: true },
		fault: { state: true },
		chosen: { state: true },
		busy: { state: true },
	};
	declare app: App;
	declare phone: Phone;
	declare household: HouseholdView;
	declare invite: Invite | null;
	declare waiting: Waiting[];
	declare fault: string;
	/** Member the phone is for, "new", or "" before anybody chose. */
	declare chosen: string;
	declare busy: boolean;
	#timer: ReturnType<typeof setInterval> | undefined;
	#invites: Invites | undefined;

	constructor() {
		super();
		this.invite = null;
		this.waiting = [];
		this.fault = "";
		this.chosen = "";
		this.busy = false;
	}

	override connectedCallback(): void {
		super.connectedCallback();
		this.#invites = new Invites({
			net: this.phone.net,
			token: () => this.phone.token(),
			key: () => deviceKey(this.phone.store),
			signText: async (arg) => ((await this.phone.ask("sign", arg)) as { text: string }).text,
		});
		void this.#poll();
		this.#timer = setInterval(() => void this.#poll(), POLL_MS);
	}

	override disconnectedCallback(): void {
		clearInterval(this.#timer);
		super.disconnectedCallback();
	}

	/** Looks who waits: at once, and then while an invite is open. */
	async #poll(): Promise<void> {
		if (document.visibilityState !== "visible") return;
		if (!this.invite && this.waiting.length === 0 && this.#looked) return;
		this.#looked = true;
		// No answer here is said by the sync line already.
		this.waiting = (await this.#invites?.waiting().catch(() => this.waiting)) ?? [];
	}
	#looked = false;

	#make = async (event: Event): Promise<void> => {
		event.preventDefault();
		const form = new FormData(event.target as HTMLFormElement);
		const member = await this.#member(String(form.get("member")), form);
		if (!member) return;
		await this.#try(async (invites) => {
			this.invite = await invites.create(String(form.get("role")), member);
		});
		this.querySelector<HTMLElement>("#invite-title")?.focus();
	};

	/** The member the phone is for; somebody new is written down first. */
	async #member(chosen: string, form: FormData): Promise<string> {
		if (chosen !== "new") return chosen;
		const name = String(form.get("name") ?? "").trim();
		if (!name) {
			this.fault = text.join.needName;
			this.querySelector<HTMLInputElement>("#add-name")?.focus();
			return "";
		}
		const child = form.get("child") === "on";
		const recorded = await this.app.record({ do: "member", set: { name, child } });
		if (recorded.ok) return recorded.entity;
		this.fault = notSaved(recorded.fault);
		return "";
	}

	async #confirm(phone: Waiting): Promise<void> {
		await this.#try(async (invites) => {
			await invites.grant(phone);
			this.waiting = this.waiting.filter((other) => other !== phone);
			this.invite = null;
			this.app.say(text.household.confirmed(phone.device));
			this.phone.tap();
		});
	}

	#stop = async (): Promise<void> => {
		const { invite } = this;
		await this.#try(async (invites) => {
			if (invite) await invites.revoke(invite.id);
			this.invite = null;
		});
	};

	async #try(work: (invites: Invites) => Promise<void>): Promise<void> {
		if (!this.#invites || this.busy) return;
		this.busy = true;
		this.fault = "";
		try {
			await work(this.#invites);
		} catch (why) {
			if (why instanceof NetFault) this.fault = text.household.needConnection;
			else
				this.fault = text.household.failed(
					why instanceof Refused ? problemWords(why) : String(why),
				);
		} finally {
			this.busy = false;
		}
	}

	override render() {
		return html`
			${this.waiting.map((phone) => this.#waiting(phone))}
			${this.invite ? this.#invite(this.invite) : this.#form()}
			${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
		`;
	}

	#waiting(phone: Waiting): TemplateResult {
		const words = text.household;
		return html`<section class="waiting" aria-live="polite">
			<h3>${words.waitingTitle}</h3>
			<p class="match">${words.waitingPhone(phone.device, phone.match)}</p>
			<p>${words.waitingLead}</p>
			<button type="button" class="go ink" ?disabled=${this.busy} @click=${() => this.#confirm(phone)}>
				${words.confirm}
			</button>
		</section>`;
	}

	#invite(invite: Invite): TemplateResult {
		const words = text.household;
		return html`<section class="invite">
			<h3 id="invite-title" tabindex="-1">${words.inviteTitle}</h3>
			<p>${words.inviteLead} ${words.inviteEnds(clockTime(invite.expires, this.app.now()))}</p>
			${invite.qr ? html`<qr-code .rows=${invite.qr} .label=${words.inviteQr}></qr-code>` : nothing}
			<p><span class="second">${words.inviteCode}</span> <strong class="code">${invite.short}</strong></p>
			<p class="link"><span class="second">${words.inviteLink}</span> <span>${invite.link}</span></p>
			<button type="button" class="plain" ?disabled=${this.busy} @click=${this.#stop}>${words.inviteStop}</button>
		</section>`;
	}

	#form(): TemplateResult {
		const words = text.household;
		const chosen = this.chosen || (this.household.members[0]?.id ?? "new");
		return html`<form class="form" novalidate @submit=${this.#make}>
			<label for="add-member">${words.whose}</label>
			<select
				id="add-member"
				name="member"
				@change=${(event: Event) => {
					this.chosen = (event.target as HTMLSelectElement).value;
				}}
			>
				${this.household.members.map(
					({ id, name }) => html`<option value=${id} .selected=${id === chosen}>${name}</option>`,
				)}
				<option value="new" .selected=${chosen === "new"}>${words.addMember}</option>
			</select>
			${
				chosen === "new"
					? html`<label for="add-name">${words.memberName}</label>
							<input id="add-name" name="name" maxlength="60" autocomplete="off" />
							<label class="check"><input type="checkbox" name="child" /> <span>${words.isChild}</span></label>`
					: nothing
			}
			<label for="add-role">${words.role}</label>
			<select id="add-role" name="role">
				${(["feeder", "keeper", "viewer"] as const).map(
					(role) => html`<option value=${role}>${words.roles[role]}</option>`,
				)}
			</select>
			<button type="submit" class="plain" ?disabled=${this.busy}>${words.makeInvite}</button>
		</form>`;
	}
}

customElements.define("add-phone", AddPhone);
