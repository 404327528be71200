/** Cache in which files shared to the app wait until the page takes them out. */
export const SHARED_CACHE = "hatside-shared";

/** What the page says to a waiting version when its user agrees to it. */
export const ACCEPT = "accept";

/** In the query of the page's address where files were shared to it that could not be kept for it. */
export const SHARE_FAILED = "share-failed";
/** What the query says there, where the browser's storage is full. */
export const SHARE_FULL = "full";
