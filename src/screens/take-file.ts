import type { SetupFile } from "../document/schema";
import { exportFile, exportText } from "../shelf/file";
import { saveFile, shareFile } from "../shelf/share";
import { asFile } from "./as-file";

/** Hands the open setup to the user as a file: the system's sheet, else a download. */
export const takeSetup = async (setup: SetupFile): Promise<void> => {
  await shareFile(asFile(exportFile(setup)));
};

/** Hands a text that could not be read whole to the user, as it was. */
export const takeRaw = (raw: { readonly name: string; readonly text: string }): void => {
  saveFile(asFile(exportText(raw.name, raw.text)));
};
