/** What the build puts in (cmd/dev): constants replaced by esbuild, and files that are no TypeScript. */

/** Address of the engine worker's hashed file; for the page. */
declare const WORKER_URL: string;
/** Address of the engine's hashed wasm file; for the worker. It names the engine's version, too. */
declare const ENGINE_URL: string;
/** Address of the hashed file of the worker that reads labels; for the page. */
declare const READER_URL: string;
/** Address of its hashed wasm file; for that worker. */
declare const READER_WASM_URL: string;
/** Address of the hashed script of the Spanish words; for the page. */
declare const SPANISH_URL: string;
/** What is fetched after the first visit, by those who need it, and then kept; for page and service worker. */
declare const LATER: string[];
/** Hash over everything that is built; for the service worker's cache name. */
declare const BUILD: string;
/** What is kept for use without a network; for the service worker. A hashed address needs no revision. */
declare const PRECACHE: { url: string; revision: string | null }[];

/** Go's own loader from the toolchain that built the engine: sets globalThis.Go. */
declare module "wasm_exec";
declare module "*.css";
