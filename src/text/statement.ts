/** How a statement is meant: nothing is left to do, look here, or wrong. */
export type Tone = "fine" | "care" | "wrong";

/** A tick means that nothing is left to do: while something is open, look here. */
export const tickUnless = (isOpen: boolean, tone: Tone): Tone => (tone === "fine" && isOpen ? "care" : tone);

/** A judgement in one line. */
export interface Statement {
  readonly tone: Tone;
  /** Without a full stop at its end. */
  readonly says: string;
  /** What stands behind it and what to do, as sentences; empty when there is nothing. */
  readonly more: string;
}
