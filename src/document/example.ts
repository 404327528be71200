import type { Feed, Id, Listener, Slot, Source, SourceKind, TapPoint } from "../core/setup";
import type { Db } from "../core/units";
import { DRUMMER } from "./blank";
import type { SetupFile } from "./schema";
import { templateSetup } from "./templates";

const line = (id: Id, name: string, kind: SourceKind, level: Db, peak: Db, channels: 1 | 2 = 1): Source => ({
  id,
  name,
  kind,
  piece: null,
  channels,
  pan: 0,
  muted: false,
  inverted: false,
  level,
  peak,
  keepSides: channels === 2,
});

const LINES: readonly Source[] = [
  line("s9", "Bass", "bass", -22, -10),
  { ...line("s10", "Guitar", "guitar", -25, -11), pan: 0.4 },
  line("s11", "Keys", "keys", -24, -10, 2),
  { ...line("s12", "Trumpet", "horn", -24, -9), pan: -0.5 },
  { ...line("s13", "Saxophone", "horn", -25, -10), pan: -0.3 },
  line("s14", "Lead voice", "voice", -22, -8),
  { ...line("s15", "Backing voice 1", "voice", -26, -11), pan: -0.2 },
  { ...line("s16", "Backing voice 2", "voice", -26, -11), pan: 0.2 },
  line("s17", "Playback", "playback", -20, -8, 2),
  line("s18", "Talk", "talk", -28, -12),
];

const performer = (id: Id, name: string, at: Pick<Listener, "x" | "y" | "facing">): Listener => ({
  ...DRUMMER,
  id,
  name,
  kind: "performer",
  sum: "m1",
  ...at,
});

/** Beside the audience and the drummer: the music director faces the band, the keys stand side-on to the kit. */
const PERFORMERS: readonly Listener[] = [
  performer("l3", "Tobi, lead voice", { x: 0, y: 3, facing: 0 }),
  performer("l4", "Lene, keys", { x: -2.6, y: 1, facing: 80 }),
  performer("l5", "Ravi, bass", { x: 1.6, y: 0.6, facing: 10 }),
  performer("l6", "Ines, music director", { x: 2.4, y: 3, facing: 180 }),
];

const slot = (feed: Feed, on = true): Slot => ({ feed, on, trim: 0 });

const direct = (source: Id, tap: TapPoint = "before-fader"): Slot =>
  slot({ kind: "source", source, channel: "both", tap });

const both = (source: Id): readonly Slot[] =>
  (["left", "right"] as const).map((channel) =>
    slot({ kind: "source", source, channel, tap: "before-fader" }),
  );

/** The patch behind the two legs of the drums: one feed was forgotten and is off, one slot is free. */
const PATCH: readonly (Slot | null)[] = [
  direct("s9"),
  direct("s10"),
  ...both("s11"),
  direct("s12"),
  direct("s13"),
  direct("s14"),
  direct("s15"),
  { ...direct("s16"), on: false },
  direct("s18", "before-eq"),
  ...both("s17"),
  null,
  null,
];

/** Every send of the drums: fits under full scale with the wanted margin, but not under the receiving input. */
const SEND_DB: Db = -5;

/**
 * The worked example: a community hall's soul band, all of it invented. The drums are panned for the audience, so the
 * drummer hears seven of eight on the wrong side; the receiving input takes less than the output gives.
 */
export const exampleSetup = (): SetupFile => {
  const base = templateSetup(8, "right");
  return {
    ...base,
    name: "Tallow Street Soul at Linden Hall",
    note: "Invented band, hall, people and levels: a worked example to try things on.",
    example: true,
    kit: { ...base.kit, pieces: base.kit.pieces.map((p) => (p.kind === "snare" ? { ...p, x: -0.15 } : p)) },
    console: { ...base.console, outputDbu: 22 },
    sources: [...base.sources.map((s) => (s.name === "Snare" ? { ...s, pan: 0.1 } : s)), ...LINES],
    sums: base.sums.map((sum) => ({ ...sum, sends: sum.sends.map((send) => ({ ...send, level: SEND_DB })) })),
    listeners: [
      ...base.listeners.map((l) => (l.kind === "drummer" ? { ...l, name: "Mara, drums" } : l)),
      ...PERFORMERS,
    ],
    monitor: { ...base.monitor, slots: [...base.monitor.slots.slice(0, 2), ...PATCH] },
  };
};
