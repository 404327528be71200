/** What the benches of the arithmetic measure, in one module. */
export * from "../../src/core";
export { findRecommendations, recommendationsOf } from "../../src/core/recommend/recommend";
export { exampleSetup } from "../../src/document/example";
export { LIMITS } from "../../src/document/limits";
export { describeImage } from "../../src/text/image";
export { describeFohPan, describeOverheads } from "../../src/text/overheads";
export { describeAdvice } from "../../src/text/recommend-why";
export { crowd, drummer } from "../core/check/kits";
export * from "./setups";
