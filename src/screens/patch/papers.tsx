import { lazy } from "../../pieces/lazy";

/** Out of the phone and into it: sheet, lists, links. */
export const Papers = lazy(async () => (await import("../papers/papers")).PapersPart);
