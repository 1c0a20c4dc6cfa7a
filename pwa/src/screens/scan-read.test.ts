import assert from "node:assert/strict";
import { test } from "node:test";
import { judge } from "./scan-read.ts";

const own = "https://bins.example.org";

const rows: [string, string, ReturnType<typeof judge>][] = [
	[
		"a label as it is printed",
		"https://BINS.EXAMPLE.ORG/T/7K3M9QX2C",
		{ kind: "label", code: "7K3M9QX2C" },
	],
	["a bare code", "7K3-M9Q-X2C", { kind: "label", code: "7K3-M9Q-X2C" }],
	[
		"a misread code of our own, which the tray's page explains",
		"https://bins.example.org/t/7K3",
		{ kind: "label", code: "7K3" },
	],
	[
		"a label of another server",
		"https://OTHER.EXAMPLE/T/7K3M9QX2C",
		{ kind: "elsewhere", code: "7K3M9QX2C", host: "other.example" },
	],
	[
		"another port is another server",
		"https://bins.example.org:8443/t/7K3M9QX2C",
		{ kind: "elsewhere", code: "7K3M9QX2C", host: "bins.example.org:8443" },
	],
	["an invite", "https://bins.example.org/join#SECRET", { kind: "invite" }],
	["a web page", "https://shop.example/worms", { kind: "web", host: "shop.example" }],
	["a Wi-Fi sign-in", "WIFI:T:WPA;S:Attic;P:invented;;", { kind: "wifi" }],
	["a contact card", "BEGIN:VCARD\nFN:Nobody\nEND:VCARD", { kind: "contact" }],
	["a telephone number", "tel:+10000000", { kind: "phone" }],
	["an e-mail address", "mailto:nobody@example.org", { kind: "mail" }],
	["a script is only text", "javascript:alert(1)", { kind: "text" }],
	["a broken address is only text", "https://", { kind: "text" }],
	["nothing", "", { kind: "text" }],
];

for (const [name, text, want] of rows) {
	test(`a square code that is ${name}`, () => assert.deepEqual(judge(text, own), want));
}
