/** What the tests of measure and listen call in the browser: the rooms themselves, without the app around them. */

export { buildGraph } from "../../src/listen/graph";
export { GAPS, renderHits, roundOf } from "../../src/listen/hits";
export { newPlayer } from "../../src/listen/player";
export { askExcerpt, askLook, measure } from "../../src/measure/client";
export { prepareInput } from "../../src/measure/decode";

/** The loops that a worker of this page gets. */
export const loopsInWorker = (): Promise<string> =>
  new Promise((done, failed) => {
    const worker = new Worker(new URL("./loops-worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }) => done(data);
    worker.onerror = ({ message }) => failed(new Error(message));
  });
