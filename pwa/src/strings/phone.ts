// Words of the shell, the sync line, Join and Household.

import type { JoinFault } from "../device/join.ts";
import type { NoAnswer } from "../device/net.ts";

const n = (count: number, one: string, many: string): string =>
	`${count} ${count === 1 ? one : many}`;

/** "3 min", "2 h 5 min", "4 days": how far a clock is off. */
function span(ms: number): string {
	const minutes = Math.round(Math.abs(ms) / 60_000);
	if (minutes < 60) return `${minutes} min`;
	const hours = Math.floor(minutes / 60);
	if (hours >= 48) return n(Math.round(hours / 24), "day", "days");
	return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

export const app = {
	name: "Trayside",
	title: (screen: string) => `${screen} · Trayside`,
	skip: "Skip to the page",
	places: "Places",
	today: "Today",
	weigh: "Weigh",
	timeline: "Timeline",
	household: "Household",
	join: "Join",
	tray: "Tray",
	code: "Open a label",
	starting: "Opening the household's log…",
	arriving: "The household's entries are coming",
	arrivingLead:
		"Until all are here, a ration would be a guess from half a log. Scraps can be weighed meanwhile.",
	toWeigh: "Weigh scraps",
	notFound: "There is no page at this address.",
	toToday: "Go to Today",
	more: "More",
	language: "Language",
	timelineLead: "Everything that was written down, day by day",
	householdLead: "Members, phones, the exchange, this phone",
	updateReady: "A new version of Trayside is ready.",
	updateNow: "Use it now",
	updateKeeps: "What you have typed is kept.",
	storageBlocked:
		"Another tab with an older Trayside is open. Close it, and this one goes on by itself.",
	storageOutdated: "A newer Trayside has opened in another tab. Reload to go on here.",
	storageLocked:
		"This is an older Trayside than the one that wrote this phone's storage. You can read and export; saving waits for the newer version.",
	storageBroken:
		"This browser gives no storage, so nothing could be kept. In a private window, open a normal one; else free some space and reload.",
	engineBroken:
		"The part that works out rations does not start on this phone. Nothing is lost: export the entries under Household, then reload.",
	draftFault:
		"What you are typing could not be put aside: the phone's storage is full. Save it before you leave this page.",
	missing: "This page's part of the app could not be loaded. Nothing is lost.",
	reload: "Reload",
	clockAhead: (ms: number) =>
		`This phone's clock is ${span(ms)} ahead of the household's. Entries still count in the right order; set the clock so that days and times are right.`,
	clockBehind: (ms: number) =>
		`This phone's clock is ${span(ms)} behind the household's. Entries still count in the right order; set the clock so that days and times are right.`,
} as const;

const noAnswer: Record<NoAnswer, string> = {
	offline: "No connection",
	unreachable: "The server does not answer",
	certificate: "The server's certificate is not valid",
	timeout: "The server takes too long",
};

export const sync = {
	/** What waits. */
	waiting: (count: number) =>
		count === 0
			? "Nothing waits on this phone"
			: `${n(count, "entry waits", "entries wait")} on this phone`,
	pictures: (count: number) => `${n(count, "picture waits", "pictures wait")} on this phone`,
	shared: "Everything shared",
	heard: (when: string) => `heard all ${when}`,
	neverHeard: "not heard from the household yet",
	fetching: (count: number) => `fetching what the household wrote, ${count} so far`,
	refused: (count: number) => `${n(count, "entry", "entries")} not accepted`,
	busy: "exchanging",
	noAnswer,
	offline: "No connection",
	portal: "This network wants a sign-in first",
	auth: "The server does not take this phone's key",
	revoked: "This phone was taken out of the household",
	problem: "The exchange has trouble",
	details: {
		storage: "this phone could not store what it received",
		"too-big": "an entry is too big for the server",
		missing: "this phone has lost the text of an entry that was not shared",
		differs: "phone and server still differ after comparing; they try again",
		later: "the server is busy and takes entries later",
		forbidden: "the server refuses this phone and does not say why",
		server: "the server has trouble of its own",
	} as Record<string, string>,
	mayMiss: "A ration may not know of somebody else's feeding.",
	now: "Exchange now",
	title: "Exchange with the household",
} as const;

const joinFaults: Record<JoinFault, string> = {
	offline: "There is no connection. The code is kept: try again when there is one.",
	unreachable: "The server does not answer. The code is kept: try again in a moment.",
	certificate:
		"The server's certificate is not valid, so nothing was sent. Ask whoever runs the server.",
	timeout: "The server took too long. The code is kept: try again.",
	portal:
		"Something else answered for the server: this network probably wants a sign-in. Open any web page, sign in, then try again.",
	"invite-unknown": "No invite has this code. Compare it with the keeper's screen.",
	"invite-expired": "This invite has run out: it lasts ten minutes. Ask a keeper for a new one.",
	"invite-used": "This invite was used already. Ask a keeper for a new one.",
	"too-many": "Too many tries. Wait a minute, then try again.",
	declined: "The keeper did not confirm this phone. Ask for a new invite.",
	storage:
		"This phone could not keep its key: its storage is full or shut. Free some space, then try again.",
	other: "The server did not accept this.",
};

export const join = {
	title: "Join a household",
	label: (code: string) => `You opened the label ${code}. It opens once this phone has joined.`,
	lead: "A keeper of the household shows you a code: on their phone under Household, Add a phone; the very first one stands in the server's window.",
	code: "Code",
	codeHint: "8 letters and digits; capitals and hyphens don't matter",
	phoneName: "Name of this phone",
	phoneNameHint: "So that the others know which one it is, e.g. Ada's phone",
	defaultPhone: "Phone",
	submit: "Join",
	fromLink: "The invite from your link is ready.",
	otherCode: "Type another code",
	demo: "Look at the demo household",
	demoLead: "This server shows an invented household. You can try everything in it.",
	sending: "Asking the server…",
	waitTitle: "Waiting for a keeper",
	waitLead: "Compare this number with the one on the keeper's phone. They confirm it there.",
	waitNumber: "Number",
	cancel: "Stop waiting",
	faults: joinFaults,
	installTitle: "Install first, then join",
	installLead:
		"On an iPhone or iPad the app on the home screen and the browser keep separate storage. Join in the app, or your entries would stay behind in the browser.",
	installSteps: [
		"Tap Share in the browser's bar.",
		"Choose Add to Home Screen.",
		"Open Trayside from the home screen and type the invite's code there.",
	],
	installBrowser: "Use it in this browser only",
	wiped: {
		lost: "This phone was removed from the household: a keeper reported it lost, so it wiped itself. If you have it back, join again with a new invite.",
		left: "You have left the household.",
		removed:
			"This phone was removed from the household: a keeper says that it is no longer used. To come back, ask for a new invite.",
	} as Record<string, string>,
	wipedEmpty: "Nothing of the household is left on it.",
	keptTitle: "Still on this phone",
	kept: (count: number) =>
		`${n(count, "entry", "entries")} of the household; some may be nowhere else. Export them now: joining another household removes them.`,
	keptForget: "Remove them from this phone",
	keptForgetSure: (count: number) => `Yes, remove ${n(count, "entry", "entries")}`,
	setupTitle: "Name your household",
	setupLead: "You are its first keeper. All of this can be changed later.",
	householdName: "Name of the household",
	ownName: "Your name",
	zone: "Time zone",
	zoneHint: "It decides when the household's day begins",
	mass: "Weights in",
	massG: "grams",
	massOz: "pounds and ounces",
	temp: "Temperatures in",
	tempC: "°C",
	tempF: "°F",
	setupSave: "Save and begin",
	needName: "Type a name.",
	notSaved: {
		full: "Not saved: the phone's storage is full. Free some space and try again; what you typed is still here.",
		locked: "Not saved: a newer Trayside has written this phone's storage. Reload to get it.",
		broken: "Not saved: this phone's storage failed. Try again; what you typed is still here.",
		slip: "Not saved: look at the amounts again.",
		refused: (why: string) => `Not saved: ${why}.`,
	},
} as const;

// The server says what it refuses in a sentence of its own, which is English.
const asSent = (detail: string): string => detail;

/** What the server refuses, by its code, given its own sentence and the letters
 * that it can't print. */
export const problems: Record<string, (detail: string, letters: string) => string> = {
	letters: asSent,
	unprintable: asSent,
	role: asSent,
	"invite-unknown": asSent,
	"invite-used": asSent,
	"invite-expired": asSent,
	"not-waiting": asSent,
	"too-many": asSent,
	"unknown-device": asSent,
	"device-revoked": asSent,
	internal: asSent,
	stopping: asSent,
	"no-space": asSent,
};

export const code = {
	title: "Open a label",
	label: "Code under the label",
	hint: "Capitals and hyphens don't matter",
	open: "Open",
	empty: "Type the code that stands under the label.",
} as const;

export const household = {
	title: "Household",
	unnamed: "Household without a name",
	members: "Members",
	member: { keeper: "keeper", feeder: "feeds", viewer: "looks only", "": "no phone" } as Record<
		string,
		string
	>,
	child: "child",
	phones: "Phones",
	mine: "this phone",
	phoneGone: {
		lost: "lost",
		left: "left",
		removed: "taken out",
		adrift: "no keeper stands for it",
	} as Record<string, string>,
	console: "the server itself",
	remove: "Remove this phone",
	removeTitle: (name: string) => `Remove ${name}: why?`,
	removeStays:
		"The server refuses it as soon as it hears of this. What it has logged stays, and so do the phones it let in.",
	removeLead: {
		lost: "In strange hands? It wipes itself when it next connects. That is a best effort: a phone that never connects keeps what is on it.",
		removed: "Sold, broken or put away? It can still export its entries when it next connects.",
	},
	removeWhy: { lost: "Lost: wipe it", removed: "No longer used" },
	removeNot: "Keep this phone",
	removed: (name: string) =>
		`${name} is removed. The server hears of it with this phone's next exchange, the removed phone when it next connects.`,
	phoneOf: (who: string, role: string) => `${who} · ${role}`,
	addPhone: "Add a phone",
	addMember: "Somebody new",
	memberName: "Name",
	isChild: "A child",
	whose: "Whose phone is it?",
	role: "They may",
	roles: {
		keeper: "keep: everything, phones and labels too",
		feeder: "feed: log feedings and looks",
		viewer: "look only",
	} as Record<string, string>,
	makeInvite: "Make an invite",
	inviteTitle: "Invite",
	inviteLead:
		"Let the other phone scan this, or type the code at this server's address. It lasts ten minutes and works once.",
	inviteQr: "Square code with the invite's address",
	inviteCode: "Code",
	inviteLink: "Link",
	inviteEnds: (at: string) => `It ends at ${at}.`,
	inviteStop: "Take the invite back",
	waitingTitle: "Waits to join",
	waitingLead: "Confirm only if the other phone shows the same number.",
	waitingPhone: (device: string, number: string) => `${device}: number ${number}`,
	confirm: "Same number: let it in",
	confirmed: (device: string) => `${device} is in the household.`,
	exchange: "Exchange",
	thisPhone: "This phone",
	storageKept: "The browser has promised to keep the entries.",
	storageLoose: "The browser may clear the entries when space is short. Share them often.",
	exportAll: "Export this phone's entries",
	exported: "The file is ready.",
	drawer: "Not accepted",
	drawerLead:
		"The household did not take these entries. They are kept here until you discard them.",
	drawerExport: "Export them",
	drawerDiscard: "Discard",
	drawerWhy: {
		role: "this phone may not write this",
		invalid: "not well formed",
		"too-big": "too big",
	} as Record<string, string>,
	attention: (count: number) =>
		`${n(count, "entry needs", "entries need")} attention: a value in it is not valid.`,
	unread: (count: number) => `${n(count, "entry needs", "entries need")} a newer Trayside.`,
	leave: "Leave the household",
	leaveTitle: "Leave the household?",
	leaveLead:
		"The others are told, then the entries are removed from this phone. The others keep theirs.",
	leaveLastKeeper:
		"You are the last keeper. After this only the server's console can let somebody in.",
	leaveUnshared: (count: number) =>
		`${n(count, "entry is", "entries are")} only on this phone. Export before you leave, or they are gone.`,
	leavePictures: (count: number) =>
		`${n(count, "picture is", "pictures are")} only on this phone, and in no export. Exchange before you leave, or ${count === 1 ? "it is" : "they are"} gone.`,
	leaveDiscard: (count: number) => `Discard ${n(count, "entry", "entries")} and leave`,
	leaveNow: "Leave",
	leaveStay: "Stay",
	leaveUnheard: "The household could not be told: the server does not answer this phone.",
	leaveListed: "If you leave all the same, it lists this phone until a keeper removes it.",
	leaveUntold: "Leave without telling them",
	needConnection:
		"This needs the server, and it does not answer. Try again when there is a connection.",
	failed: (why: string) => `That did not work: ${why}`,
	keeperOnly: "Only a keeper can add a phone.",
} as const;
