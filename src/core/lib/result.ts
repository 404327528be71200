/** What did not come about, and why. */
export interface Refused<Problem = string> {
  readonly ok: false;
  readonly why: Problem;
}

/**
 * What something that can fail comes to: what it brings, or why it brings nothing. Without another type of problem, `why`
 * is what the user reads: whole sentences with their full stops.
 */
export type Result<Brought extends object, Problem = string> =
  | ({ readonly ok: true } & Readonly<Brought>)
  | Refused<Problem>;

/** Goes on from the name of a thing, without a full stop: "is empty". */
export type Clause = string;

/** Nothing came about. */
export const refused = <Problem>(why: Problem): Refused<Problem> => ({ ok: false, why });
