// A stretch of network between a phone and the server that a test can change:
// it passes everything on, plays a network's sign-in page, or serves a changed
// file as a new version of the app would.

import { once } from "node:events";
import { createServer, request, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";

export interface Proxy {
	readonly url: string;
	/** "portal" answers everything with a page that is not the server's. */
	mode: "pass" | "portal";
	/** Text appended to the service worker: a new version of the app. */
	newVersion: string;
	end(): Promise<void>;
}

const signIn = "<!doctype html><title>Guest network</title><p>Sign in to go on.</p>";

export async function startProxy(target: string): Promise<Proxy> {
	const open = new Set<ServerResponse>();
	const proxy = { mode: "pass" as Proxy["mode"], newVersion: "", url: "" };
	const server = createServer((incoming, outgoing) => {
		open.add(outgoing);
		outgoing.on("close", () => open.delete(outgoing));
		if (proxy.mode === "portal") {
			outgoing.writeHead(200, { "Content-Type": "text/html" }).end(signIn);
			return;
		}
		const changed = incoming.url === "/sw.js" && proxy.newVersion !== "";
		const headers = { ...incoming.headers };
		if (incoming.url === "/sw.js") {
			delete headers["accept-encoding"];
			delete headers["if-none-match"];
		}
		const passed = request(
			new URL(incoming.url ?? "/", target),
			{ method: incoming.method ?? "GET", headers },
			(answer) => {
				const head = { ...answer.headers };
				if (changed) delete head["content-length"];
				outgoing.writeHead(answer.statusCode ?? 502, head);
				answer.pipe(outgoing, { end: !changed });
				if (changed) answer.on("end", () => outgoing.end(proxy.newVersion));
			},
		);
		passed.on("error", () => outgoing.destroy());
		outgoing.on("close", () => passed.destroy());
		incoming.pipe(passed);
	});
	server.listen(0, "127.0.0.1");
	await once(server, "listening");
	proxy.url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
	return Object.assign(proxy, {
		end: async () => {
			for (const answer of open) answer.destroy();
			server.closeAllConnections();
			server.close();
			await once(server, "close");
		},
	});
}
