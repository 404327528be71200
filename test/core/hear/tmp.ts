export { evidenceOf } from "../../../src/core/hear/likelihood";
export { heardBelief } from "../../../src/core/hear/posterior";
export { apart } from "../../../src/core/hear/sketch";
export { stateOf } from "../../../src/core/hear/state-of";
export { seeded } from "../check/simulate";
export * from "./sessions";
export * from "./stage";
