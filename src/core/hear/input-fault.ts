import type { PairReading } from "./pair";

/** What keeps L and R of an input from being measured. */
export type InputFault = "one-channel" | "identical" | "muted" | "silent" | "overload";

/**
 * What is wrong with what an input brings, the gravest; null where nothing is.
 * @param channels that it has
 * @param isMuted the system has muted it
 */
export const inputFault = (
  { kind, overload }: Pick<PairReading, "kind" | "overload">,
  channels: number,
  isMuted: boolean,
): InputFault | null => {
  if (channels < 2) return "one-channel";
  if (isMuted) return "muted";
  if (kind === "silent" || kind === "identical") return kind;
  return overload ? "overload" : null;
};
