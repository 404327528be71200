import fc from "fast-check";
import type { HandPins } from "../../../src/core/allocate/problem";
import { BLANK_BUS, BLANK_CHANNEL, BLANK_SEND } from "../../../src/core/model/defaults";
import type { Bus, Channel, Feed, Listener, MonitorInput } from "../../../src/core/model/setup";
import { blankSetup, DRUMMER } from "../../../src/document/blank";
import type { SetupFile } from "../../../src/document/schema";

/** Nothing is decided by hand. */
export const NO_PINS: HandPins = { channels: new Map(), buses: [] };

const LINES: readonly (readonly [name: string, kind: Channel["kind"], lines?: 2])[] = [
  ["Kick In", "drum"],
  ["Kick Out", "drum"],
  ["Snare", "drum"],
  ["Hat", "drum"],
  ["Floor tom", "drum"],
  ["Congas", "percussion"],
  ["Bass DI", "bass"],
  ["Bass amp", "bass"],
  ["Guitar", "guitar"],
  ["Keys", "keys", 2],
  ["Trumpet", "horn"],
  ["Lead vox", "lead-vocal"],
  ["BV 1", "vocal"],
  ["BV 2", "vocal"],
  ["Playback", "playback", 2],
  ["Click", "click"],
  ["Talk", "talkback"],
  ["Host", "speech"],
  ["Room mic", "audience"],
  ["Reverb", "effects", 2],
];

const fader = fc.option(fc.constantFrom(0, -10));
const TAPS = ["pre-hpf", "pre-eq", "pre-fader", "post-fader"] as const;

const aChannel = fc.constantFrom(...LINES).chain(([name, kind, lines]) =>
  fc.record({
    name: fc.constant(name),
    kind: fc.constant(kind),
    lines: fc.constant<1 | 2>(lines ?? 1),
    fader,
    muted: fc.boolean(),
    keepSides: fc.boolean(),
    directOut: fc.record({ tap: fc.constantFrom(...TAPS), on: fc.boolean(), trim: fc.constant(0) }),
  }),
);

/** A band with whatever is patched, as it stands or by mistake. */
export const aBand: fc.Arbitrary<SetupFile> = fc
  .uniqueArray(aChannel, { minLength: 1, maxLength: 20, selector: (c) => c.name })
  .chain((made) => {
    const channels = made.map((c, i): Channel => ({ ...BLANK_CHANNEL, ...c, id: `s${i + 1}` }));
    const ids = channels.map((c) => c.id);
    const sends = fc.subarray(ids).chain((some) =>
      fc.tuple(
        ...some.map((channel) =>
          fc.record({
            pan: fc.constant(BLANK_SEND.pan),
            channel: fc.constant(channel),
            on: fc.boolean(),
            level: fader,
            tap: fc.constantFrom("pre-fader" as const, "post-fader" as const),
          }),
        ),
      ),
    );
    const aBus = fc.record({
      name: fc.constantFrom("Drums", "Vocals", "Fold-back", "Mix", ""),
      stereo: fc.boolean(),
      swapped: fc.boolean(),
      folded: fc.boolean(),
      fader,
      sends,
    });
    return fc.array(aBus, { maxLength: 4 }).chain((list) => {
      const buses = list.map((b, i): Bus => ({ ...BLANK_BUS, ...b, id: `m${i + 1}` }));
      const feeds: Feed[] = [
        ...channels.map((c): Feed => ({ kind: "channel", channel: c.id, side: "both" })),
        ...buses.map((b): Feed => ({ kind: "bus", bus: b.id, side: "left" })),
      ];
      const anInput: fc.Arbitrary<MonitorInput | null> = fc.option(
        fc.record({
          feed: fc.constantFrom(...feeds),
          on: fc.boolean(),
          trim: fc.constantFrom(0, -3),
          port: fc.option(fc.integer({ min: 1, max: 32 })),
        }),
      );
      const listener = (id: string, name: string): fc.Arbitrary<Listener> =>
        fc.option(fc.constantFrom("", ...buses.map((b) => b.id))).map((bus) => ({
          ...DRUMMER,
          id,
          name,
          kind: "performer",
          bus: bus || null,
        }));
      return fc.record({
        channels: fc.constant(channels),
        buses: fc.constant(buses),
        inputs: fc.array(anInput, { maxLength: 24 }),
        people: fc.tuple(listener("l3", "Tobi, lead vox"), listener("l4", "Lene, keys")),
      });
    });
  })
  .chain((made) =>
    fc.integer({ min: 8, max: 20 }).map((inputCount) => {
      const blank = blankSetup("A band");
      const { channels, buses, inputs, people } = made;
      return {
        ...blank,
        channels,
        buses,
        listeners: [...blank.listeners, ...people],
        monitor: { ...blank.monitor, inputCount, inputs },
      };
    }),
  );
