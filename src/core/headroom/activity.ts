import type { Channel, ChannelKind, PieceKind, Setup } from "../model/setup";

/** Share of the time in which a drum is heard in its own microphone, 0…1. Common practice, no source. */
const BY_PIECE: { readonly [kind in PieceKind]: number } = {
  kick: 0.5,
  snare: 0.5,
  hat: 0.7,
  tom: 0.1,
  floor: 0.1,
  ride: 0.4,
  crash: 0.2,
  percussion: 0.6,
  overhead: 0.9,
  other: 0.5,
};

/** Share of the time in which a kind of channel plays, 0…1, where nobody measured it. Common practice, no source. */
const BY_KIND: { readonly [kind in ChannelKind]: number } = {
  drum: 0.5,
  percussion: 0.6,
  bass: 0.9,
  guitar: 0.8,
  keys: 0.8,
  horn: 0.3,
  strings: 0.6,
  "lead-vocal": 0.6,
  vocal: 0.4,
  playback: 0.8,
  click: 1,
  speech: 0.2,
  talkback: 0.1,
  audience: 1,
  video: 0.2,
  effects: 0.5,
  other: 0.7,
};

/**
 * Share of the time in which each channel plays, 0…1: as entered, else as a recording has it, else by what it is.
 */
export const activityIn = (setup: Pick<Setup, "kit" | "recording">): ((channel: Channel) => number) => {
  const measured = new Map(setup.recording?.channels.map((m) => [m.channel, m.activity]));
  const pieces = new Map(setup.kit.pieces.map((piece) => [piece.id, piece]));
  return (channel) => {
    const piece = channel.piece === null ? undefined : pieces.get(channel.piece);
    const typical = channel.kind === "drum" && piece ? BY_PIECE[piece.kind] : BY_KIND[channel.kind];
    return channel.activity ?? measured.get(channel.id) ?? typical;
  };
};
