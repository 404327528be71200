/** What the tests of measure and listen call in the browser: the rooms themselves, without the app around them. */

export { buildGraph } from "../../src/listen/graph";
export { newPlayer } from "../../src/listen/player";
export { measure } from "../../src/measure/client";
export { prepareInput } from "../../src/measure/decode";
export { readExcerpt } from "../../src/measure/excerpt";
