import type { SetupFile } from "../../document/schema";
import { shelf } from "../../shelf/here";
import { oneAtATime } from "../one-at-a-time";
import { replacePlace } from "../route";
import { incoming } from "./incoming";

/** Opens a setup as a new saved one and leads to it; where what is open now could not be saved it stays, and a notice says why. */
export const openNew = oneAtATime(async (file: SetupFile) => {
  const before = shelf.openId.peek();
  await shelf.add(file);
  if (shelf.openId.peek() === before) return;
  incoming.value = null;
  replacePlace("channels");
});
