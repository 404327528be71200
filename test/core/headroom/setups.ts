import fc from "fast-check";
import { BLANK_BUS, BLANK_CHANNEL, BLANK_SEND } from "../../../src/core/model/defaults";
import type { Bus, Channel, Desk, Limb, Piece, Recording, Send, Setup } from "../../../src/core/model/setup";
import { DESK, MONITOR_REST } from "../desk";

export { DESK };

export const BUS: Bus = {
  ...BLANK_BUS,
  id: "m",
  name: "Drums",
  stereo: true,
};

/** A channel with no place at the kit. */
export const channel = (id: string, given: Partial<Channel> = {}): Channel => ({
  ...BLANK_CHANNEL,
  id,
  name: id,
  kind: "drum",
  gatedRms: -20,
  activity: 1,
  peak: -6,
  ...given,
});

export const piece = (id: string, limbs: readonly Limb[], player = "drummer"): Piece => ({
  id,
  name: id,
  kind: "other",
  x: 0,
  y: 1,
  limbs,
  player,
});

/** A setup with one bus that every channel goes to at 0 dB unless the bus's own sends are given. */
export const setupOf = (
  channels: readonly Channel[],
  given: {
    readonly console?: Partial<Desk>;
    readonly bus?: Partial<Bus>;
    readonly pieces?: readonly Piece[];
    readonly recording?: Recording | null;
    readonly inputMaxDbu?: number;
    readonly margin?: number;
  } = {},
): Setup => ({
  kit: { hand: "right", yaw: 0, pieces: given.pieces ?? [] },
  desk: { ...DESK, ...given.console },
  channels,
  buses: [
    {
      ...BUS,
      sends: channels.map((s) => ({
        channel: s.id,
        on: true,
        level: 0,
        tap: "post-fader" as const,
        pan: null,
      })),
      ...given.bus,
    },
  ],
  listeners: [],
  monitor: { inputCount: 16, inputs: [], maxInputDbu: given.inputMaxDbu ?? 24, ...MONITOR_REST },
  preferences: { first: "l", fohFixed: true, inputsFixed: false, targetHeadroom: given.margin ?? 6 },
  earphone: null,
  recording: given.recording ?? null,
});

export const onlyBus = (setup: Setup): Bus => setup.buses[0] as Bus;

/** A recording of these channels with one correlation between any two of them. */
export const recordingOf = (ids: readonly string[], correlation: number): Recording => ({
  name: "r",
  seconds: 60,
  channels: ids.map((id) => ({
    channel: id,
    rms: -20,
    gatedRms: -20,
    peak: -6,
    truePeak: -6,
    fast: -18,
    slow: -19,
    activity: null,
  })),
  correlation: ids.map((a) => ids.map((b) => (a === b ? 1 : correlation))),
});

/** In thousandths: closer to a margin than rounding reaches, both answers are right. */
const db = (min: number, max: number) =>
  fc.integer({ min: 1000 * min, max: 1000 * max }).map((thousandths) => thousandths / 1000 || 0);
const LIMBS: readonly Limb[] = ["hand", "kick-foot", "hat-foot", "whole"];

const anyPiece = (at: number): fc.Arbitrary<Piece> =>
  fc
    .record({
      limbs: fc.oneof(
        { weight: 2, arbitrary: fc.subarray([...LIMBS]) },
        { weight: 3, arbitrary: fc.constant<Limb[]>(["hand"]) },
        { weight: 2, arbitrary: fc.constant<Limb[]>(["hand", "hat-foot"]) },
        { weight: 2, arbitrary: fc.constant<Limb[]>(["kick-foot"]) },
      ),
      player: fc.constantFrom("drummer", "drummer", "drummer", "Noor"),
    })
    .map(({ limbs, player }) => piece(`p${at}`, limbs, player));

const anyChannel = (at: number, pieces: number): fc.Arbitrary<Channel> =>
  fc
    .record({
      piece: fc.option(
        fc.nat({ max: pieces }).map((i) => `p${i}`),
        { freq: 4 },
      ),
      lines: fc.constantFrom<1 | 2>(1, 1, 1, 2),
      pan: fc.oneof(db(-1, 1), fc.constantFrom(-1, 0, 1)),
      muted: fc.oneof({ weight: 6, arbitrary: fc.constant(false) }, fc.boolean()),
      inverted: fc.boolean(),
      gatedRms: fc.oneof(
        { weight: 8, arbitrary: db(-60, 0) },
        fc.constantFrom(null, Number.NEGATIVE_INFINITY),
      ),
      peak: fc.oneof({ weight: 8, arbitrary: db(-40, 0) }, fc.constantFrom(null, Number.NEGATIVE_INFINITY)),
    })
    .map((given) => channel(`s${at}`, given));

const anySend = (at: number): fc.Arbitrary<Send> =>
  fc
    .record({
      level: fc.oneof(
        { weight: 6, arbitrary: db(-40, 10) },
        fc.constantFrom(null, 40, Number.NEGATIVE_INFINITY),
      ),
      pan: fc.option(db(-1, 1), { freq: 2 }),
    })
    .map((given) => ({ ...BLANK_SEND, channel: `s${at}`, ...given }));

const anyRecording = (channels: number): fc.Arbitrary<Recording> =>
  fc.array(fc.array(db(-1, 1), { minLength: 3, maxLength: 3 }), { maxLength: channels }).map((vectors) => {
    const ids = vectors.map((_, i) => `s${i}`);
    const size = (v: readonly number[]) => Math.hypot(...v, 1e-9);
    const dot = (a: readonly number[], b: readonly number[]) =>
      a.reduce((sum, x, i) => sum + x * (b[i] ?? 0), 0) / (size(a) * size(b));
    return {
      ...recordingOf(ids, 0),
      correlation: vectors.map((a, i) => vectors.map((b, j) => (i === j ? 1 : dot(a, b)))),
    };
  });

/** Any setup with one sum of up to `most` sources: every law, limb, polarity, trim, unknown and silent values. */
export const anySetup = (most: number): fc.Arbitrary<Setup> =>
  fc.tuple(fc.nat({ max: most }), fc.nat({ max: 6 })).chain(([channels, pieces]) =>
    fc
      .record({
        pieces: fc.tuple(...Array.from({ length: pieces }, (_, i) => anyPiece(i))),
        channels: fc.tuple(...Array.from({ length: channels }, (_, i) => anyChannel(i, pieces))),
        sends: fc.tuple(...Array.from({ length: channels }, (_, i) => anySend(i))),
        recording: fc.option(anyRecording(channels), { freq: 2 }),
        law: fc.constantFrom<Desk["law"][]>(
          "sine",
          "root",
          "linear",
          "mean45",
          "sine45",
          "cosine2",
          "custom",
        ),
        reference: fc.constantFrom<Desk["reference"][]>("sides", "centre"),
        twoChannel: fc.constantFrom<Desk["stereoLaw"][]>("balance-linear", "balance-sine", "pan"),
        levelStep: fc.constantFrom(0.1, 0.5, 1, 3),
        stereo: fc.oneof({ weight: 4, arbitrary: fc.constant(true) }, fc.constant(false)),
        folded: fc.oneof({ weight: 4, arbitrary: fc.constant(false) }, fc.constant(true)),
        trim: fc.oneof(fc.constant(0), db(-20, 10)),
        sideTrim: fc.oneof(fc.constant<[number, number]>([0, 0]), fc.tuple(db(-6, 6), db(-6, 6))),
        sideInverted: fc.tuple(fc.boolean(), fc.boolean()),
        reversed: fc.boolean(),
        padDb: fc.constantFrom(0, 0, 10, 20),
        inputMaxDbu: db(4, 26),
        outputDbu: fc.constantFrom(15, 18, 22, 24),
        margin: fc.constantFrom(0, 3, 6, 10),
      })
      .map((g) =>
        setupOf(g.channels, {
          pieces: g.pieces,
          recording: g.recording,
          margin: g.margin,
          inputMaxDbu: g.inputMaxDbu,
          console: {
            law: g.law,
            reference: g.reference,
            stereoLaw: g.twoChannel,
            levelStep: g.levelStep,
            outputDbu: g.outputDbu,
          },
          bus: {
            sends: g.sends,
            stereo: g.stereo,
            folded: g.folded,
            trim: g.trim,
            sideTrim: g.sideTrim,
            sideInverted: g.sideInverted,
            swapped: g.reversed,
            padDb: g.padDb,
          },
        }),
      ),
  );
