/** What the bench of the check needs, in one module. */
export { checkOf } from "../../../src/core/check/check";
export { judge } from "../../../src/core/check/judge";
export { pannedByChance, smallKits, TUNED, templateCells, UNTUNED } from "./cells";
export { crowd, drummer } from "./kits";
export { reckon } from "./reckon";
export {
  asAsked,
  frontToBack,
  hears,
  hearsSurely,
  play,
  seeded,
  shuffled,
  simulate,
  strictBoundOf,
  yardstickOf,
} from "./simulate";
