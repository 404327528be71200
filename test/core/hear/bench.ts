/** What the bench of hearing needs, in one module. */
export { hitFinder } from "../../../src/core/hear/hit-finder";
export { seeded } from "../check/simulate";
export { heardCell, heardSession, wrongsOf } from "./sessions";
