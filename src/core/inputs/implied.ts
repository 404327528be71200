import type { Piece } from "../model/setup";
import type { ListLine } from "./list";
import type { InputName } from "./names";

/** Where a new channel's name alone says how it is panned. Common practice, no source. */
const panOfName = ({ side, piece, kind }: InputName): number =>
  side !== null && (piece === "overhead" || kind === "audience") ? (side === "left" ? -1 : 1) : 0;

/**
 * What a new channel gets from its name alone, where nothing else is said of it.
 * @param lines 2 for a stereo channel
 * @param piece the piece that it stands at
 */
export const impliedBy = (
  input: InputName,
  lines: 1 | 2,
  piece: Pick<Piece, "name"> | null,
): ListLine["otherwise"] => ({
  kind: input.kind,
  piece: piece?.name ?? null,
  lines,
  pan: lines === 2 ? 0 : panOfName(input),
  muted: false,
  inverted: false,
  gatedRms: null,
  peak: null,
  keepSides: lines === 2,
});
