import { remembered } from "../lib/memo";
import type { Action, Bus, Channel, Listener, Piece, Setup } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { type ChannelGains, scaledGains } from "../pan/stereo";
import { ACTIONS, NO_ACTION } from "./actions";
import { type Path, type PathChannel, pathsOf } from "./paths";
import { hearsWholeKit, type Pickup } from "./pickup";
import { type EarImage, earImage } from "./wiring";

/** What both ears get of a hit, by the level of the overheads and what was done for it. */
export type HitImage = (piece: Piece, overheads: Db, action: Action | null) => EarImage;

/** One state the path from a bus to a listener's ears can be in. */
export interface Hypothesis extends Pick<Path, "id" | "fault" | "channel"> {
  readonly image: HitImage;
  /** Whether a hit of this drum can sound otherwise than planned at all. */
  readonly touches: (piece: Piece) => boolean;
}

/**
 * Every state of the path that a check looks for, with what a hit brings to the ears, "planned" first.
 * A channel that no drum of these sounds through has no faults of its own here: no hit could find them.
 */
export const hypothesesOf = (
  setup: Setup,
  listener: Pick<Listener, "flipped" | "mono">,
  bus: Bus,
  pickup: Pickup,
  drums: readonly Piece[],
): Hypothesis[] => {
  const above = new Set(setup.kit.pieces.filter(hearsWholeKit).map((place) => place.id));
  /** What a drum sounds through, its own microphones and the overheads: with hundreds of channels, few of all. */
  const near = remembered((all: readonly PathChannel[]) =>
    remembered((piece: Piece) =>
      all.filter(
        ({ channel }) => channel.piece === piece.id || (channel.piece !== null && above.has(channel.piece)),
      ),
    ),
  );
  /** What a hit brings into a path; worked out once, for it is asked again for every fault and action. */
  const struck = remembered((all: readonly PathChannel[]) =>
    remembered((overheads: Db) =>
      remembered((piece: Piece): ChannelGains => {
        const rows: Sides[] = [];
        for (const { channel, gains } of near(all)(piece)) {
          const gain = pickup(piece, channel, overheads);
          if (gain !== 0) rows.push(...scaledGains(gains, [gain, gain]));
        }
        return rows;
      }),
    ),
  );
  const isChecked = (channel: Channel): boolean => drums.some((piece) => pickup(piece, channel, 0) > 0);
  return pathsOf(setup, listener, bus, isChecked).map(({ id, fault, channel, channels, wiring }) => {
    const culprit = setup.channels.find((one) => one.id === channel);
    const way = remembered(wiring);
    return {
      id,
      fault,
      channel,
      image: (piece, overheads, action) => {
        const done = action === null ? NO_ACTION : ACTIONS[action];
        return earImage(struck(channels(done.mutesOverheads))(overheads)(piece), way(done));
      },
      touches: (piece) => !culprit || pickup(piece, culprit, 0) > 0,
    };
  });
};
