import type { Channel, ChannelKind, PieceKind, Setup } from "../model/setup";

/**
 * Share of the time in which a drum is heard in its own microphone, 0…1: the share of the gating blocks that pass. Of kick,
 * snare, hat, toms, ride and overheads the middle of what takes mixed from recorded drum hits had, rounded to 0.05
 * (`node test/bench/level-error.mjs` derives it); of the others common practice, no source.
 */
const BY_PIECE: { readonly [kind in PieceKind]: number } = {
  kick: 0.85,
  snare: 0.85,
  hat: 1,
  tom: 0.35,
  floor: 0.45,
  ride: 0.95,
  crash: 0.2,
  percussion: 0.6,
  overhead: 0.95,
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

/** Share of the time in which each channel plays, 0…1: as entered, else as a recording has it, else null. */
export const knownActivityIn = ({
  recording,
}: Pick<Setup, "recording">): ((channel: Channel) => number | null) => {
  const measured = new Map(recording?.channels.map((m) => [m.channel, m.activity]));
  return (channel) => channel.activity ?? measured.get(channel.id) ?? null;
};

/** Share of the time in which each channel plays, 0…1: what is known of it, else what is typical of what it is. */
export const activityIn = (setup: Pick<Setup, "kit" | "recording">): ((channel: Channel) => number) => {
  const knownOf = knownActivityIn(setup);
  const pieces = new Map(setup.kit.pieces.map((piece) => [piece.id, piece]));
  return (channel) => {
    const piece = channel.piece === null ? undefined : pieces.get(channel.piece);
    const typical = channel.kind === "drum" && piece ? BY_PIECE[piece.kind] : BY_KIND[channel.kind];
    return knownOf(channel) ?? typical;
  };
};
