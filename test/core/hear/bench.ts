/** What the bench of hearing needs, in one module. */
export { seeded } from "../check/simulate";
export { heardCell, heardHit, heardSession, wrongsOf } from "./sessions";
export { eveningOf, hitOn } from "./stage";
