import fc from "fast-check";
import type { Issue, IssueCode } from "../../../src/core/inputs/issue";
import { BLANK_BUS, BLANK_CHANNEL, BLANK_INPUT } from "../../../src/core/model/defaults";
import type {
  Bus,
  Channel,
  ChannelKind,
  Feed,
  Id,
  Listener,
  MonitorInput,
  Setup,
  TapPoint,
} from "../../../src/core/model/setup";
import { DESK, MONITOR_REST } from "../desk";

const LISTENER: Omit<Listener, "id" | "name" | "kind"> = {
  x: 0,
  y: 0,
  facing: 0,
  bus: null,
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

export const channel = (id: Id, more: Partial<Channel> = {}): Channel => ({
  ...BLANK_CHANNEL,
  id,
  name: id,
  gatedRms: -24,
  peak: -10,
  ...more,
});

/** A channel whose direct out is taken at a tap point. */
export const tapped = (from: Channel, tap: TapPoint): Channel => ({
  ...from,
  directOut: { ...from.directOut, tap },
});

export const bus = (id: Id, sends: readonly Id[], more: Partial<Bus> = {}): Bus => ({
  ...BLANK_BUS,
  id,
  name: id,
  stereo: true,
  sends: sends.map((s) => ({ channel: s, on: true, level: 0, tap: "post-fader" as const, pan: null })),
  ...more,
});

export const direct = (
  id: Id,
  channel: "both" | "left" | "right" = "both",
  more: Partial<MonitorInput> = {},
): MonitorInput => ({
  ...BLANK_INPUT,
  feed: { kind: "channel", channel: id, side: channel },
  ...more,
});

export const side = (id: Id, side: "left" | "right", more: Partial<MonitorInput> = {}): MonitorInput => ({
  ...BLANK_INPUT,
  feed: { kind: "bus", bus: id, side: side },
  ...more,
});

/** The first issue of a code, which must be there. */
export const valuesOf = <Code extends IssueCode>(
  issues: readonly Issue[],
  code: Code,
): Extract<Issue, { code: Code }> => {
  const found = issues.find((i) => i.code === code);
  if (!found) throw new Error(`no ${code}`);
  return found as Extract<Issue, { code: Code }>;
};

/** The same input, switched off. */
export const isOff = (input: MonitorInput): MonitorInput => ({ ...input, on: false });

export const setup = (
  channels: readonly Channel[],
  buses: readonly Bus[],
  inputs: readonly (MonitorInput | null)[],
  inputCount = 16,
  listeners: readonly Listener[] = [listener("l2", { kind: "drummer", bus: buses[0]?.id ?? null })],
): Setup => ({
  kit: { hand: "right", yaw: 0, pieces: [] },
  desk: DESK,
  channels,
  buses,
  listeners: [listener("l1", { kind: "audience", y: 8, facing: 180 }), ...listeners],
  monitor: { inputCount, inputs, maxInputDbu: 20, ...MONITOR_REST },
  preferences: { first: "l2", fohFixed: true, inputsFixed: false, targetHeadroom: 6 },
  earphone: null,
  recording: null,
});

const KINDS: readonly ChannelKind[] = [
  "drum",
  "vocal",
  "bass",
  "guitar",
  "keys",
  "horn",
  "playback",
  "talkback",
  "other",
];
const TAPS: readonly TapPoint[] = ["pre-hpf", "pre-eq", "pre-fader", "post-fader"];

const aChannel = (id: Id): fc.Arbitrary<Channel> =>
  fc
    .record({
      name: fc.constantFrom(id, `Channel ${id}`, "Kick", "Voice 2", ""),
      kind: fc.constantFrom(...KINDS),
      lines: fc.constantFrom<1 | 2>(1, 1, 2),
      pan: fc.integer({ min: -100, max: 100 }).map((p) => (p === 0 ? 0 : p / 100)),
      muted: fc.boolean().chain((m) => (m ? fc.boolean() : fc.constant(false))),
      inverted: fc.boolean(),
      gatedRms: fc.option(fc.integer({ min: -60, max: 0 })),
      peak: fc.option(fc.integer({ min: -40, max: 0 })),
      keepSides: fc.boolean(),
      directOut: fc.record({
        tap: fc.constantFrom(...TAPS),
        on: fc.constantFrom(true, true, true, false),
        trim: fc.integer({ min: -6, max: 6 }),
      }),
    })
    .map((given) => channel(id, given));

const aBus = (id: Id, channels: readonly Channel[]): fc.Arbitrary<Bus> =>
  fc
    .record({
      in: fc.array(fc.boolean(), { minLength: channels.length, maxLength: channels.length }),
      stereo: fc.boolean(),
      swapped: fc.boolean(),
      folded: fc.boolean().chain((f) => (f ? fc.boolean() : fc.constant(false))),
      trim: fc.integer({ min: -12, max: 6 }),
    })
    .map(({ in: inside, stereo, ...more }) => {
      const sends = channels.filter((_, i) => inside[i]).map((s) => s.id);
      return bus(id, sends, { ...more, stereo });
    });

const aInput = (channels: readonly Channel[], buses: readonly Bus[]): fc.Arbitrary<MonitorInput | null> => {
  const feeds: Feed[] = [
    ...channels.flatMap((s) =>
      (s.lines === 2 ? (["left", "right", "both"] as const) : (["both"] as const)).map(
        (side): Feed => ({ kind: "channel", channel: s.id, side }),
      ),
    ),
    ...buses.flatMap((s) =>
      (s.stereo ? (["left", "right"] as const) : (["left"] as const)).map(
        (side): Feed => ({ kind: "bus", bus: s.id, side: side }),
      ),
    ),
  ];
  if (feeds.length === 0) return fc.constant(null);
  return fc.record({
    feed: fc.constantFrom(...feeds),
    port: fc.constant(null),
    on: fc.constantFrom(true, true, true, false),
    trim: fc.integer({ min: -10, max: 6 }),
  });
};

/** Any patch of so many channels, with feeds of every kind, some twice, off, apart or beyond the count. */
export const anySetup = (mostChannels: number, mostInputs: number): fc.Arbitrary<Setup> =>
  fc
    .integer({ min: 0, max: mostChannels })
    .chain((n) => fc.tuple(...Array.from({ length: n }, (_, i) => aChannel(`s${i + 1}`))))
    .chain((channels) =>
      fc
        .integer({ min: 0, max: 2 })
        .chain((n) => fc.tuple(...Array.from({ length: n }, (_, i) => aBus(`m${i + 1}`, channels))))
        .chain((buses) =>
          fc
            .record({
              inputs: fc.array(
                fc.oneof({ weight: 5, arbitrary: aInput(channels, buses) }, fc.constant(null)),
                {
                  maxLength: mostInputs,
                },
              ),
              inputCount: fc.integer({ min: 1, max: mostInputs }),
            })
            .map(({ inputs, inputCount }) => setup(channels, buses, inputs, inputCount)),
        ),
    );
