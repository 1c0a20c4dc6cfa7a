// The engine's worker: loads the Go engine and passes frames to it, one at a
// time. It decides nothing; when the engine dies it says so and falls silent.

import { instantiate } from "./device/compile.ts";
import "wasm_exec";
import type { FromWorker, ToWorker } from "./device/engine.ts";

interface Go {
	importObject: WebAssembly.Imports;
	run(instance: WebAssembly.Instance): Promise<void>;
}

type Engine = Record<ToWorker["call"], (frame: Uint8Array) => Uint8Array>;

declare const self: DedicatedWorkerGlobalScope & {
	Go: new () => Go;
	trayside?: Engine;
};

const say = (message: FromWorker, transfer: Transferable[] = []): void =>
	self.postMessage(message, transfer);

async function start(): Promise<Engine> {
	const go = new self.Go();
	const instance = await instantiate(ENGINE_URL, go.importObject);
	// run returns when the program ends, which it never does unless it dies.
	void go.run(instance).then(
		() => say({ died: "the engine stopped" }),
		(why: unknown) => say({ died: String(why) }),
	);
	if (!self.trayside) throw new Error("engine: started without its five calls");
	return self.trayside;
}

const engine = start();
engine.catch((why: unknown) => say({ died: String(why) }));

self.onmessage = async (event: MessageEvent<ToWorker>) => {
	const { id, call, frame } = event.data;
	try {
		const answer = (await engine)[call](frame);
		say({ id, frame: answer }, [answer.buffer as ArrayBuffer]);
	} catch (why) {
		say({ id, error: String(why) });
	}
};
