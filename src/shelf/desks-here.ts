import { createDesks } from "./desks";
import { shelf } from "./here";
import { followDesk } from "./last-desk";

/** The desks saved in this browser. To be loaded once the shelf has been started: they lie in its cupboard. */
export const desks = createDesks(shelf.cupboard());

/** Which of them, or which other, was used last. */
export const deskInUse = followDesk(shelf.openId, desks);
