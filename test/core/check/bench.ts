/** What the bench of the check needs, in one module. */
export { checkOf } from "../../../src/core/check/check";
export { decide } from "../../../src/core/check/decide";
export { crowd, drummer } from "./kits";
export { cellOf, onStage, ownModel, sessions } from "./sessions";
export { seeded } from "./simulate";
export { PEOPLE_KINDS } from "./stage";
