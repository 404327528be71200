import type { ExportedFile } from "../shelf/file";

/** An exported file as the browser hands it on. */
export const asFile = ({ name, blob }: ExportedFile): File => new File([blob], name, { type: blob.type });
