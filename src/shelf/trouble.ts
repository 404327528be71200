/** Why storage did not work, as the middle of a sentence. */
export const troubleOf = (error: unknown): string => {
  const name = error instanceof Error ? error.name : "";
  if (name === "QuotaExceededError") return "the browser’s storage is full";
  if (name === "SecurityError" || name === "NotAllowedError")
    return "the browser does not let this page keep data";
  if (name === "InvalidStateError") return "the browser closed its storage";
  if (name === "DataError") return "the browser’s storage is damaged";
  // Chromium says no more than that, also where its user forbade the page to keep anything.
  if (name === "UnknownError") return "the browser’s storage is refused or damaged";
  return error instanceof Error && error.message !== "" ? error.message : "the browser gives no reason";
};
