// Starting a WebAssembly program, by whichever way the platform takes.

/** Compiles while the bytes arrive; where a proxy or an old cache lost the
 * content type, streaming refuses and the whole file is read first. Rejects with
 * the status if there is no file. */
export async function instantiate(
	url: string,
	imports: WebAssembly.Imports,
	ask: (url: string) => Promise<Response> = (url) => fetch(url),
): Promise<WebAssembly.Instance> {
	try {
		const module = await WebAssembly.compileStreaming(ask(url));
		return await WebAssembly.instantiate(module, imports);
	} catch (streaming) {
		const answer = await ask(url);
		if (!answer.ok)
			throw new Error(`engine: ${url} answers ${answer.status}`, { cause: streaming });
		return (await WebAssembly.instantiate(await answer.arrayBuffer(), imports)).instance;
	}
}
