/**
 * Setup files of version 2 by chance, in the words of that version. The same number gives the same file for ever: the
 * figures in `figures-v2.bin.gz` were computed from these files by the last code that wrote version 2. So nothing here
 * may change, not even the order in which chance is asked.
 *
 * One thing is left out on purpose: a mono sum has equal trims of its two legs and no switched polarity of one. Both
 * were leftovers of a stereo sum that turned the image of a mono one; version 3 has neither.
 */

/** Chance with a known beginning: mulberry32 (Tommy Ettinger, public domain), from memory. */
const chanceFrom = (seed: number): (() => number) => {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
};

const LAWS = ["sine", "root", "linear", "mean45", "sine45", "cosine2", "custom"];
const STEREO_LAWS = ["balance-linear", "balance-sine", "pan"];
const SOURCE_KINDS = ["drum", "voice", "bass", "guitar", "keys", "horn", "playback", "talk", "other"];
const TAPS = ["before-filter", "before-eq", "before-fader", "after-fader"];
const PIECE_KINDS = [
  "kick",
  "snare",
  "hat",
  "tom",
  "floor",
  "ride",
  "crash",
  "percussion",
  "overhead",
  "other",
];
const LIMBS = [["hand"], ["kick-foot"], ["hat-foot"], ["hand", "hat-foot"], ["whole"]];

/** How many files there are. */
export const RANDOM_FILES = 2000;

/** The file of a number, as it would have been read from JSON. */
export const randomV2 = (number: number) => {
  const chance = chanceFrom(number);
  const whole = (from: number, to: number): number => from + Math.floor(chance() * (to - from + 1));
  const yes = (share: number): boolean => chance() < share;
  const of = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)] as T;
  /** Rounded, as a person enters it. */
  const between = (from: number, to: number, places = 1): number =>
    Math.round((from + chance() * (to - from)) * 10 ** places) / 10 ** places;
  const pan = (): number => (yes(0.25) ? of([-1, -0.5, 0, 0.5, 1]) : between(-1, 1, 4));
  const known = (level: number): number | null => (yes(0.1) ? null : level);
  const trim = (): number => (yes(0.5) ? 0 : between(-12, 6));
  const list = <T>(count: number, make: (at: number) => T): T[] =>
    Array.from({ length: count }, (_, at) => make(at));

  const yaw = yes(0.5) ? 0 : between(-60, 60, 0);
  const pieces = list(whole(1, 9), (at) => ({
    id: `p${at}`,
    name: `Piece ${at}`,
    kind: of(PIECE_KINDS),
    x: yes(0.15) ? 0 : between(-1.2, 1.2, 2),
    y: between(-0.2, 1.2, 2),
    limbs: of(LIMBS),
    player: yes(0.85) ? "drummer" : "Percussion",
  }));
  const sources = list(whole(1, 12), (at) => ({
    id: `s${at}`,
    name: `Source ${at}`,
    kind: of(SOURCE_KINDS),
    piece: yes(0.75) ? of(pieces).id : null,
    channels: yes(0.25) ? 2 : 1,
    pan: pan(),
    muted: yes(0.12),
    inverted: yes(0.15),
    level: known(between(-50, -8)),
    peak: known(between(-30, 0)),
    keepSides: yes(0.1),
  }));
  const sums = list(yes(0.3) ? 2 : 1, (at) => {
    const stereo = yes(0.7);
    const left = trim();
    return {
      id: `m${at}`,
      name: `Sum ${at}`,
      stereo,
      sends: sources
        .filter(() => yes(0.85))
        .map(({ id }) => ({
          source: id,
          level: yes(0.08) ? null : between(-20, 6),
          pan: yes(0.5) ? null : pan(),
        })),
      trim: trim(),
      legTrim: [left, stereo ? trim() : left],
      legInverted: [stereo && yes(0.1), stereo && yes(0.1)],
      unevenLegs: yes(0.1),
      reversed: yes(0.3),
      folded: yes(0.1),
      padDb: yes(0.6) ? 0 : between(0, 20),
    };
  });
  const sum = () => (yes(0.9) ? of(sums).id : null);
  const mixer = () => ({ flipped: yes(0.25), mono: yes(0.12) });
  const listeners = [
    { id: "l0", name: "Audience", kind: "audience", x: 0, y: 6, facing: 180, sum: null, ...mixer() },
    { id: "l1", name: "Drummer", kind: "drummer", x: 0, y: 0, facing: yaw, sum: sum(), ...mixer() },
    ...list(yes(0.4) ? 1 : 0, () => ({
      id: "l2",
      name: "Performer",
      kind: "performer",
      x: between(-4, 4),
      y: between(-1, 4),
      facing: between(-180, 180, 0),
      sum: sum(),
      ...mixer(),
    })),
  ];
  const leg = (id: string, side: string) => ({ kind: "leg", sum: id, leg: side });
  const feed = () => {
    if (yes(0.5)) {
      const { id, stereo } = of(sums);
      return leg(id, stereo ? of(["left", "right"]) : "left");
    }
    const { id, channels } = of(sources);
    return {
      kind: "source",
      source: id,
      channel: channels === 2 ? of(["both", "left", "right"]) : "both",
      tap: of(TAPS),
    };
  };
  const slot = (takes: unknown) => ({ feed: takes, on: yes(0.85), trim: trim() });
  const first = sums[0];
  const order = yes(0.5) ? ["left", "right"] : ["right", "left"];
  // Half of the files have the first stereo sum side by side, so that its order counts.
  const pair = first?.stereo && yes(0.5) ? order.map((side) => slot(leg(first.id, side))) : [];
  const slots = [...pair, ...list(whole(0, 6), () => (yes(0.2) ? null : slot(feed())))];
  return {
    format: "hatside-setup",
    version: 2,
    name: `Chance ${number}`,
    note: "",
    example: false,
    kit: { hand: of(["right", "left", "open"]), yaw, pieces },
    console: {
      law: of(LAWS),
      centreDb: between(0.5, 12),
      reference: of(["sides", "centre"]),
      twoChannel: of(STEREO_LAWS),
      panStyle: of(["steps", "midi", "clock"]),
      panSteps: whole(1, 100),
      levelStep: of([0.1, 0.25, 0.5, 1]),
      rms: of(["sample", "aes17"]),
      outputDbu: between(0, 28),
    },
    sources,
    sums,
    listeners,
    monitor: { slotCount: 16, inputMaxDbu: between(0, 28), slots },
    wishes: { first: "l1", houseFixed: yes(0.5), slotsFixed: yes(0.5), margin: between(0, 12) },
    ear: null,
    recording: null,
    check: null,
    lineCheck: {},
  };
};
