import type { SetupFile } from "../../document/schema";
import { shelf } from "../../shelf/here";
import { replacePlace } from "../route";
import { incoming } from "./incoming";

/** Opens a setup as a new one on the shelf and leads to it; where what is open now could not be saved it stays, and the shelf says why. */
export const openNew = async (file: SetupFile): Promise<void> => {
  const before = shelf.openId.peek();
  await shelf.add(file);
  if (shelf.openId.peek() === before) return;
  incoming.value = null;
  replacePlace("channels");
};
