/** What the bench of the check needs, in one module. */
export { checkOf } from "../../../src/core/check/check";
export { judge } from "../../../src/core/check/judge";
export { crowd, drummer, KITS } from "./kits";
export { asAsked, boundOf, checkWith, frontToBack, play, seeded, shuffled, simulate } from "./simulate";
