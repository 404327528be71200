import { clause } from "./words";

/** What the browser says of a worker that came to no end: in its words, or a code where it has none. */
export interface WorkerTrouble {
  /** Before it began, or on its way. */
  readonly when: "start" | "run";
  readonly why: "not loaded" | "no answer" | { readonly reason: string };
}

const REASONS = {
  "not loaded": "its program could not be loaded",
  "no answer": "its answer could not be read",
} as const;

/**
 * Why a worker came to no end, in a sentence.
 * @param doing as a sentence begins: “Measuring”
 */
export const describeWorkerTrouble = (doing: string, { when, why }: WorkerTrouble): string => {
  const reason = typeof why === "string" ? REASONS[why] : clause(why.reason);
  return when === "start"
    ? `${doing} could not be started: ${reason}.`
    : `${doing} stopped: ${reason}. Reload and try again.`;
};
