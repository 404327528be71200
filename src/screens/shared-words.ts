import type { Shared } from "../shelf/share";

/** What became of something that was to be shared. */
export const SHARED_WORDS: { readonly [shared in Shared]: string } = {
  shared: "Shared.",
  dismissed: "",
  copied: "Link copied.",
  saved: "File downloaded.",
  failed: "This browser can’t share: copy the link from the field below.",
};

/** The address of this app, to which a link leads on any phone. */
export const ownAddress = (): string => location.href.replace(/[?#].*$/s, "");
