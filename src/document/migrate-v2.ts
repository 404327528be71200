import { isFields } from "./reader";

type Raw = { readonly [field: string]: unknown };

/** Fields under their new names; a field that is not named keeps its own, and what is no record is left to the reader. */
const renamed = (value: unknown, names: { readonly [old: string]: string }): unknown =>
  isFields(value)
    ? Object.fromEntries(Object.entries(value).map(([key, held]) => [names[key] ?? key, held]))
    : value;

/** The same, with some values changed as well, by their new names. */
const changed = (
  value: unknown,
  changes: { readonly [field: string]: (held: unknown) => unknown },
): unknown =>
  isFields(value)
    ? Object.fromEntries(Object.entries(value).map(([key, held]) => [key, changes[key]?.(held) ?? held]))
    : value;

const each =
  (change: (item: unknown) => unknown) =>
  (list: unknown): unknown =>
    Array.isArray(list) ? list.map(change) : list;

const word =
  (words: { readonly [old: string]: string }) =>
  (held: unknown): unknown =>
    typeof held === "string" ? (words[held] ?? held) : held;

const TAPS = {
  "before-filter": "pre-hpf",
  "before-eq": "pre-eq",
  "before-fader": "pre-fader",
  "after-fader": "post-fader",
};

/** What was not there, beside what was. */
const beside = (value: unknown, more: Raw): unknown => (isFields(value) ? { ...more, ...value } : value);

const channel =
  (taps: ReadonlyMap<unknown, unknown>) =>
  (value: unknown): unknown => {
    const renewed = changed(renamed(value, { channels: "lines", level: "gatedRms" }), {
      kind: word({ voice: "vocal", talk: "talkback" }),
    });
    const tap = (isFields(value) && taps.get(value.id)) || "pre-fader";
    return beside(renewed, {
      numbers: [],
      fader: 0,
      activity: null,
      directOut: { tap, on: true, trim: 0 },
      colour: null,
      group: "",
      extra: [],
    });
  };

/** A send moved with a mute, so it is one behind the fader, which nobody had. */
const send = (value: unknown): unknown =>
  beside(renamed(value, { source: "channel" }), { on: true, tap: "post-fader" });

/** A mono bus had trims and polarities of sides that no desk has; what they did to its one output moves into its trim. */
const monoBus = (value: unknown): unknown => {
  if (!isFields(value) || value.stereo !== false) return value;
  const [left] = Array.isArray(value.sideTrim) ? value.sideTrim : [];
  const trim = typeof value.trim === "number" && typeof left === "number" ? value.trim + left : value.trim;
  return { ...value, trim, sideTrim: [0, 0], sideInverted: [false, false] };
};

const bus = (value: unknown): unknown =>
  monoBus(
    changed(
      beside(
        renamed(value, {
          legTrim: "sideTrim",
          legInverted: "sideInverted",
          unevenLegs: "unevenSides",
          reversed: "swapped",
        }),
        { numbers: [], fader: 0 },
      ),
      { sends: each(send) },
    ),
  );

/** The tap point lies at the channel now. */
const feed = (value: unknown): unknown => {
  const renewed = changed(renamed(value, { source: "channel", channel: "side", sum: "bus", leg: "side" }), {
    kind: word({ source: "channel", leg: "bus" }),
  });
  if (!isFields(renewed)) return renewed;
  const { tap, ...rest } = renewed;
  return rest;
};

const input = (value: unknown): unknown => beside(changed(value, { feed }), { port: null });

const monitor = (value: unknown): unknown =>
  beside(
    changed(renamed(value, { slotCount: "inputCount", slots: "inputs", inputMaxDbu: "maxInputDbu" }), {
      inputs: each(input),
    }),
    { link: "analog", trimBeforeInput: false, mixers: { flip: true, mono: true } },
  );

/** The desk as the first edition computed it: buses that can overload, a mute that takes everything. */
const desk = (value: unknown): unknown =>
  beside(renamed(value, { twoChannel: "stereoLaw" }), {
    name: "",
    channelCount: 48,
    busCount: 16,
    portCount: 16,
    bankSize: 8,
    portName: "Out",
    firstPort: 1,
    busOverloads: true,
    muteRule: { preFaderSends: true, directOuts: Object.values(TAPS) },
    trimStep: 0.5,
  });

/** The tap point of each source: that of the first slot that took it. */
const tapsOf = (setup: Raw): ReadonlyMap<unknown, unknown> => {
  const taps = new Map<unknown, unknown>();
  const slots = isFields(setup.monitor) && Array.isArray(setup.monitor.slots) ? setup.monitor.slots : [];
  for (const slot of slots) {
    const from = isFields(slot) ? slot.feed : null;
    if (isFields(from) && from.kind === "source" && !taps.has(from.source))
      taps.set(from.source, word(TAPS)(from.tap));
  }
  return taps;
};

const recording = (value: unknown): unknown =>
  changed(renamed(value, { sources: "channels" }), {
    channels: each((measured) =>
      beside(renamed(measured, { source: "channel", playing: "gatedRms" }), { activity: null }),
    ),
  });

const preferences = (value: unknown): unknown =>
  renamed(value, { houseFixed: "fohFixed", slotsFixed: "inputsFixed", margin: "targetHeadroom" });

/**
 * Version 2 into 3: the trade’s words in place of the first edition’s, and a desk that computes the same figures: faders
 * at 0 dB, sends behind them, a mute that takes everything. Tap points go from the inputs to the channels.
 */
export const inDeskTerms = (setup: Raw): Raw =>
  changed(
    renamed(setup, {
      console: "desk",
      sources: "channels",
      sums: "buses",
      wishes: "preferences",
      ear: "earphone",
    }),
    {
      desk,
      channels: each(channel(tapsOf(setup))),
      buses: each(bus),
      listeners: each((listener) => renamed(listener, { sum: "bus" })),
      monitor,
      preferences,
      recording,
    },
  ) as Raw;
