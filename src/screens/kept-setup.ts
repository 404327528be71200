import { readSetupText } from "../document/read-setup";
import type { SetupFile } from "../document/schema";
import { shelf } from "../shelf/here";
import { describeReadRefusal } from "../text/reading";

/** A setup of the shelf, read; rejects with the reason where it cannot be. */
export const readKept = async (id: string): Promise<SetupFile> => {
  const result = readSetupText(await shelf.textOf(id));
  if (!result.ok) throw new Error(describeReadRefusal(result.why));
  return result.file;
};
