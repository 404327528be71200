/** Cache in which files shared to the app wait, each under the address of its own deployment, until the page takes them out. */
export const SHARED_CACHE = "hatside-shared";

/**
 * What the page says to a version of the worker, as the `type` of a message:
 * - `SKIP_WAITING` (the word that workbox-window sends): its user agrees to the waiting version.
 * - `VERSION`: which version is it? Answered by its name.
 * - `REPAIR`: fetch again what is missing of the copy. Answered by how many files are missing after that.
 * - `SHARE_FAILED`: were files shared that could not be kept? Answered once by why not, else by null.
 */
export type Word = "SKIP_WAITING" | "VERSION" | "REPAIR" | "SHARE_FAILED";

/** How pages from before these words agree to the waiting version: the whole message. */
export const ACCEPT = "accept";

/** In the query of the page's address where files were shared to it that could not be kept for it. */
export const SHARE_FAILED = "share-failed";
/** Why files are missing: storage was full, or they could not be read. */
export type Missing = "full" | "unread";
