/** What the bench of people and levels needs besides the checks, in one module. */
export { recommend } from "../../src/core/recommend/recommend";
export { freeInputs } from "../../src/core/recommend/situation";
export { overheadIssues } from "../../src/core/stereo/overheads";
export { agreementOf } from "../../src/core/stereo/placement";
export { levelDifference, placeAt } from "../../src/core/stereo/position";
export { templateSetup } from "../../src/document/templates";
export { tryAll } from "../core/recommend/brute";
export { randomSetup } from "../core/recommend/setups";
export { shortfall } from "../core/recommend/shortfall";
