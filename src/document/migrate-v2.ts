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

const channel = (value: unknown): unknown =>
  changed(renamed(value, { channels: "lines", level: "gatedRms" }), {
    kind: word({ voice: "vocal", talk: "talkback" }),
  });

const send = (value: unknown): unknown => renamed(value, { source: "channel" });

const bus = (value: unknown): unknown =>
  changed(
    renamed(value, {
      legTrim: "sideTrim",
      legInverted: "sideInverted",
      unevenLegs: "unevenSides",
      reversed: "swapped",
    }),
    { sends: each(send) },
  );

const feed = (value: unknown): unknown =>
  changed(renamed(value, { source: "channel", channel: "side", sum: "bus", leg: "side" }), {
    kind: word({ source: "channel", leg: "bus" }),
    tap: word(TAPS),
  });

const input = (value: unknown): unknown => changed(value, { feed });

const monitor = (value: unknown): unknown =>
  changed(renamed(value, { slotCount: "inputCount", slots: "inputs", inputMaxDbu: "maxInputDbu" }), {
    inputs: each(input),
  });

const recording = (value: unknown): unknown =>
  changed(renamed(value, { sources: "channels" }), {
    channels: each((measured) => renamed(measured, { source: "channel", playing: "gatedRms" })),
  });

const preferences = (value: unknown): unknown =>
  renamed(value, { houseFixed: "fohFixed", slotsFixed: "inputsFixed", margin: "targetHeadroom" });

/** Version 2 into 3: the words of the trade in place of the first edition’s; no value is changed but for a name. */
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
      desk: (held) => renamed(held, { twoChannel: "stereoLaw" }),
      channels: each(channel),
      buses: each(bus),
      listeners: each((listener) => renamed(listener, { sum: "bus" })),
      monitor,
      preferences,
      recording,
    },
  ) as Raw;
