import { reasonOf } from "../text/words";

/** What the names of the browser's own errors mean where storage is asked. */
const MEANINGS: { readonly [name: string]: string } = {
  QuotaExceededError: "the browser’s storage is full",
  SecurityError: "the browser does not let this page keep data",
  NotAllowedError: "the browser does not let this page keep data",
  InvalidStateError: "the browser closed its storage",
  DataError: "the browser’s storage is damaged",
  AbortError: "the browser stopped it",
  VersionError:
    "a newer version of Hatside saved setups in this browser; they are still there, but this older version can’t read them",
  // Chromium says no more than that, also where its user forbade the page to keep anything.
  UnknownError: "the browser’s storage is refused or damaged",
};

/** Why storage did not work, as the middle of a sentence. */
export const troubleOf = (error: unknown): string => {
  const name = error instanceof Error ? error.name : "";
  return MEANINGS[name] ?? reasonOf(error, "the browser gives no reason");
};
