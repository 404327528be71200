import { isStruck } from "../kinds";
import type { Part } from "../mix";
import { printNumber } from "../number";
import type { Id, Piece } from "../setup";
import type { Db } from "../units";

/** How far below and above the energy sum the real level may lie, dB, both positive. */
export interface LevelError {
  readonly below: Db;
  readonly above: Db;
}

/** Of close microphones: −1.2 to +1.7 dB found on measured kits, no source. */
export const CLOSE_ERROR: Db = 1.5;

/**
 * Where microphones of the whole kit hear the same hits as the close ones, their low end adds up: the level lay up to
 * 2.5 dB above the energy sum in mixes of real drum hits (`test/bench/real-drums.mjs`), no source.
 */
export const HEARD_AGAIN_ERROR: Db = 2.5;

/** How good the energy sum of some parts is. */
export const levelErrorOf = (parts: readonly Part[], pieces: ReadonlyMap<Id, Piece>): LevelError => {
  const at = parts.map((p) => (p.source.piece === null ? undefined : pieces.get(p.source.piece)));
  const again = at.some(isStruck) && at.some((piece) => piece?.limbs.includes("whole"));
  return { below: CLOSE_ERROR, above: again ? HEARD_AGAIN_ERROR : CLOSE_ERROR };
};

/** "±1.5", or "−1.5 +2.5" where the sides differ. */
export const printLevelError = ({ below, above }: LevelError): string =>
  below === above ? `±${printNumber(below, 1)}` : `${printNumber(-below, 1)} +${printNumber(above, 1)}`;
