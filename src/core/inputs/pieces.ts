import type { Piece } from "../model/setup";
import { type InputName, readName } from "./names";

const alike = (a: InputName, b: InputName): boolean =>
  a.side === b.side && a.numbers.join() === b.numbers.join();

/**
 * The piece of a kit that an input is at, as far as its name tells: the one of its kind with its number and side, else the
 * only one of its kind; null where none or several could be meant.
 * @example pieceOf(kit.pieces, readName("Snr Top")) // the snare
 */
export const pieceOf = (pieces: readonly Piece[], input: InputName): Piece | null => {
  const same = input.name.toLowerCase();
  const named = pieces.find((p) => p.name.trim().toLowerCase() === same);
  if (named) return named;
  const ofKind = pieces.filter((p) => p.kind === input.piece);
  const counted = ofKind.filter((p) => alike(readName(p.name), input));
  if (counted.length === 1) return counted[0] ?? null;
  const plain = input.side === null && input.numbers.length === 0;
  return plain && ofKind.length === 1 ? (ofKind[0] ?? null) : null;
};
