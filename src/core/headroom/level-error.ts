import type { MixedChannel } from "../mix/bus";
import { isStruck } from "../model/kinds";
import type { Id, Piece } from "../model/setup";
import type { Db } from "../model/units";

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
export const levelErrorOf = (parts: readonly MixedChannel[], pieces: ReadonlyMap<Id, Piece>): LevelError => {
  const at = parts.map((p) => (p.channel.piece === null ? undefined : pieces.get(p.channel.piece)));
  const again = at.some(isStruck) && at.some((piece) => piece?.limbs.includes("whole"));
  return { below: CLOSE_ERROR, above: again ? HEARD_AGAIN_ERROR : CLOSE_ERROR };
};
