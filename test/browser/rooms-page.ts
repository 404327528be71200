/** What the tests of measure and listen call in the browser: the rooms themselves, without the app around them. */

export { buildGraph } from "../../src/listen/graph";
export { newPlayer } from "../../src/listen/player";
export { measure } from "../../src/measure/client";
export { prepareInput } from "../../src/measure/decode";
export { readExcerpt } from "../../src/measure/excerpt";

/** The loops that a worker of this page gets. */
export const loopsInWorker = (): Promise<string> =>
  new Promise((done, failed) => {
    const worker = new Worker(new URL("./loops-worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }) => done(data);
    worker.onerror = ({ message }) => failed(new Error(message));
  });
