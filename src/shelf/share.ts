/** What became of something to be handed on. */
export type Shared =
  /** It went to the system's own sheet. */
  | "shared"
  /** The user closed that sheet. */
  | "dismissed"
  /** It is in the clipboard. */
  | "copied"
  /** A file was handed to the browser to keep. */
  | "saved"
  /** Nothing of this works here: show it, to be copied by hand. */
  | "failed";

/** What of a browser is used; each part may be missing. */
export interface SharePlatform {
  readonly share?: (data: ShareData) => Promise<void>;
  readonly canShare?: (data: ShareData) => boolean;
  readonly clipboard?: Pick<Clipboard, "writeText">;
}

const isAbort = (error: unknown): boolean => error instanceof DOMException && error.name === "AbortError";

/** Hands data to the system's sheet; null where there is none for it. */
const bySheet = async (data: ShareData, platform: SharePlatform): Promise<"shared" | "dismissed" | null> => {
  if (!platform.share || (platform.canShare && !platform.canShare(data))) return null;
  try {
    await platform.share(data);
    return "shared";
  } catch (error) {
    return isAbort(error) ? "dismissed" : null;
  }
};

/** Puts a text into the clipboard: the modern way, else by a field that is selected and copied. */
export const copyText = async (
  text: string,
  platform: SharePlatform = navigator,
): Promise<"copied" | "failed"> => {
  try {
    if (platform.clipboard) {
      await platform.clipboard.writeText(text);
      return "copied";
    }
  } catch {
    // Refused, as in a frame or without the focus: the old way may still work.
  }
  return copyBySelection(text) ? "copied" : "failed";
};

const copyBySelection = (text: string): boolean => {
  if (typeof document === "undefined") return false;
  const field = document.createElement("textarea");
  field.value = text;
  field.readOnly = true;
  field.style.position = "fixed";
  field.style.opacity = "0";
  const had = document.activeElement;
  document.body.append(field);
  field.select();
  try {
    return document.execCommand("copy");
  } catch {
    return false;
  } finally {
    field.remove();
    if (had instanceof HTMLElement) had.focus();
  }
};

/** Shares a link: the system's sheet, else the clipboard. Call it straight from a tap, or browsers refuse. */
export const shareLink = async (
  title: string,
  url: string,
  platform: SharePlatform = navigator,
): Promise<Shared> => (await bySheet({ title, url }, platform)) ?? copyText(url, platform);

/** Hands a file to the browser to keep. */
export const saveFile = (file: File): "saved" => {
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = file.name;
  link.click();
  // The browser reads the address only after this turn.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
  return "saved";
};

/** Shares a file: the system's sheet where it takes files, else it is kept like any download. */
export const shareFile = async (
  file: File,
  platform: SharePlatform = navigator,
  save: (file: File) => Shared = saveFile,
): Promise<Shared> => {
  const data = { files: [file], title: file.name };
  const takesFiles = platform.canShare?.(data) === true;
  return (takesFiles ? await bySheet(data, platform) : null) ?? save(file);
};
