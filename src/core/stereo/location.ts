import type { Channel, Id, Listener, Setup } from "../model/setup";
import { isSideOn, offsetFor, placeOfOffset } from "./geometry";
import type { Location } from "./placement";

const NOWHERE: Location = { offset: null, stands: null };

/** Where each channel stands for a listener: nowhere without a piece or side-on. */
export const locationsFor = (setup: Setup, listener: Listener): ((channel: Channel) => Location) => {
  if (isSideOn(setup.kit, listener)) return () => NOWHERE;
  const standings = new Map<Id, Location>();
  for (const piece of setup.kit.pieces) {
    const offset = offsetFor(setup.kit, listener, piece);
    standings.set(piece.id, { offset, stands: placeOfOffset(offset) });
  }
  return (channel) => (channel.piece === null ? undefined : standings.get(channel.piece)) ?? NOWHERE;
};
