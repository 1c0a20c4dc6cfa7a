// What a square code that was read is: a label of ours, or something else that
// the screen names politely and leaves alone. An address from a sticker is
// never opened: only the code in it is looked at.

/** `elsewhere` is a label's address on another host. */
export type Read =
	| { kind: "label"; code: string }
	| { kind: "elsewhere"; code: string; host: string }
	| { kind: "invite" }
	| { kind: "web"; host: string }
	| { kind: "wifi" | "contact" | "phone" | "mail" | "text" };

// Nine symbols of a label, as they are printed; hyphens may be there.
const bare = /^[0-9a-z]{3}-?[0-9a-z]{3}-?[0-9a-z]{3}$/i;

export function judge(text: string, own: string): Read {
	const said = text.trim();
	if (bare.test(said)) return { kind: "label", code: said };
	if (/^wifi:/i.test(said)) return { kind: "wifi" };
	if (/^(begin:vcard|mecard:)/i.test(said)) return { kind: "contact" };
	if (/^(tel|sms|smsto):/i.test(said)) return { kind: "phone" };
	if (/^(mailto|matmsg):/i.test(said)) return { kind: "mail" };
	if (!/^https?:\/\//i.test(said) || !URL.canParse(said)) return { kind: "text" };
	const url = new URL(said);
	const code = /^\/t\/([^/]+)\/?$/i.exec(url.pathname)?.[1];
	const here = url.host === new URL(own).host;
	if (code) return here ? { kind: "label", code } : { kind: "elsewhere", code, host: url.host };
	return url.pathname.toLowerCase() === "/join"
		? { kind: "invite" }
		: { kind: "web", host: url.host };
}
