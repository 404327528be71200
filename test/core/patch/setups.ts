import fc from "fast-check";
import { BLANK_SUM } from "../../../src/core/blanksum";
import type {
  Feed,
  Id,
  Listener,
  Setup,
  Slot,
  Source,
  SourceKind,
  Sum,
  TapPoint,
} from "../../../src/core/setup";

const LISTENER: Omit<Listener, "id" | "name" | "kind"> = {
  x: 0,
  y: 0,
  facing: 0,
  sum: null,
  flipped: false,
  mono: false,
};

export const listener = (id: Id, more: Partial<Listener> = {}): Listener => ({
  ...LISTENER,
  id,
  name: id,
  kind: "performer",
  ...more,
});

export const source = (id: Id, more: Partial<Source> = {}): Source => ({
  id,
  name: id,
  kind: "other",
  piece: null,
  channels: 1,
  pan: 0,
  muted: false,
  inverted: false,
  level: -24,
  peak: -10,
  keepSides: false,
  ...more,
});

export const sum = (id: Id, sends: readonly Id[], more: Partial<Sum> = {}): Sum => ({
  ...BLANK_SUM,
  id,
  name: id,
  stereo: true,
  sends: sends.map((s) => ({ source: s, level: 0, pan: null })),
  ...more,
});

export const direct = (
  id: Id,
  channel: "both" | "left" | "right" = "both",
  more: Partial<Slot> & { readonly tap?: TapPoint } = {},
): Slot => ({
  feed: { kind: "source", source: id, channel, tap: more.tap ?? "before-fader" },
  on: more.on ?? true,
  trim: more.trim ?? 0,
});

export const leg = (id: Id, side: "left" | "right", more: Partial<Slot> = {}): Slot => ({
  feed: { kind: "leg", sum: id, leg: side },
  on: true,
  trim: 0,
  ...more,
});

/** The same slot, switched off. */
export const isOff = (slot: Slot): Slot => ({ ...slot, on: false });

export const setup = (
  sources: readonly Source[],
  sums: readonly Sum[],
  slots: readonly (Slot | null)[],
  slotCount = 16,
  listeners: readonly Listener[] = [listener("l2", { kind: "drummer", sum: sums[0]?.id ?? null })],
): Setup => ({
  kit: { hand: "right", yaw: 0, pieces: [] },
  console: {
    law: "sine",
    centreDb: 3,
    reference: "sides",
    twoChannel: "balance-linear",
    panStyle: "steps",
    panSteps: 100,
    levelStep: 0.1,
    rms: "sample",
    outputDbu: 18,
  },
  sources,
  sums,
  listeners: [listener("l1", { kind: "audience", y: 8, facing: 180 }), ...listeners],
  monitor: { slotCount, slots, inputMaxDbu: 20 },
  wishes: { first: "l2", houseFixed: true, slotsFixed: false, margin: 6 },
  ear: null,
  recording: null,
});

const KINDS: readonly SourceKind[] = [
  "drum",
  "voice",
  "bass",
  "guitar",
  "keys",
  "horn",
  "playback",
  "talk",
  "other",
];
const TAPS: readonly TapPoint[] = ["before-filter", "before-eq", "before-fader", "after-fader"];

const aSource = (id: Id): fc.Arbitrary<Source> =>
  fc.record({
    id: fc.constant(id),
    name: fc.constantFrom(id, `Source ${id}`, "Kick", "Voice 2", ""),
    kind: fc.constantFrom(...KINDS),
    piece: fc.constant(null),
    channels: fc.constantFrom(1, 1, 2),
    pan: fc.integer({ min: -100, max: 100 }).map((p) => (p === 0 ? 0 : p / 100)),
    muted: fc.boolean().chain((m) => (m ? fc.boolean() : fc.constant(false))),
    inverted: fc.boolean(),
    level: fc.option(fc.integer({ min: -60, max: 0 })),
    peak: fc.option(fc.integer({ min: -40, max: 0 })),
    keepSides: fc.boolean(),
  });

const aSum = (id: Id, sources: readonly Source[]): fc.Arbitrary<Sum> =>
  fc
    .record({
      in: fc.array(fc.boolean(), { minLength: sources.length, maxLength: sources.length }),
      stereo: fc.boolean(),
      reversed: fc.boolean(),
      folded: fc.boolean().chain((f) => (f ? fc.boolean() : fc.constant(false))),
      trim: fc.integer({ min: -12, max: 6 }),
    })
    .map(({ in: inside, stereo, ...more }) => {
      const sends = sources.filter((_, i) => inside[i]).map((s) => s.id);
      return sum(id, sends, { ...more, stereo });
    });

const aSlot = (sources: readonly Source[], sums: readonly Sum[]): fc.Arbitrary<Slot | null> => {
  const feeds: Feed[] = [
    ...sources.flatMap((s) =>
      (s.channels === 2 ? (["left", "right", "both"] as const) : (["both"] as const)).map(
        (channel): Feed => ({ kind: "source", source: s.id, channel, tap: "before-fader" }),
      ),
    ),
    ...sums.flatMap((s) =>
      (s.stereo ? (["left", "right"] as const) : (["left"] as const)).map(
        (side): Feed => ({ kind: "leg", sum: s.id, leg: side }),
      ),
    ),
  ];
  if (feeds.length === 0) return fc.constant(null);
  return fc.record({
    feed: fc
      .constantFrom(...feeds)
      .chain(
        (feed): fc.Arbitrary<Feed> =>
          feed.kind === "leg" ? fc.constant(feed) : fc.constantFrom(...TAPS).map((tap) => ({ ...feed, tap })),
      ),
    on: fc.constantFrom(true, true, true, false),
    trim: fc.integer({ min: -10, max: 6 }),
  });
};

/** Any patch of so many sources, with feeds of every kind, some twice, off, apart or beyond the count. */
export const anySetup = (mostSources: number, mostSlots: number): fc.Arbitrary<Setup> =>
  fc
    .integer({ min: 0, max: mostSources })
    .chain((n) => fc.tuple(...Array.from({ length: n }, (_, i) => aSource(`s${i + 1}`))))
    .chain((sources) =>
      fc
        .integer({ min: 0, max: 2 })
        .chain((n) => fc.tuple(...Array.from({ length: n }, (_, i) => aSum(`m${i + 1}`, sources))))
        .chain((sums) =>
          fc
            .record({
              slots: fc.array(fc.oneof({ weight: 5, arbitrary: aSlot(sources, sums) }, fc.constant(null)), {
                maxLength: mostSlots,
              }),
              slotCount: fc.integer({ min: 1, max: mostSlots }),
            })
            .map(({ slots, slotCount }) => setup(sources, sums, slots, slotCount)),
        ),
    );
