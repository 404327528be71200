import type { Channel, ChannelKind, Feed, Id, Listener, MonitorInput, TapPoint } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { DRUMMER } from "./blank";
import type { SetupFile } from "./schema";
import { templateSetup } from "./templates";

const line = (
  id: Id,
  name: string,
  kind: ChannelKind,
  level: Db,
  peak: Db,
  channels: 1 | 2 = 1,
): Channel => ({
  id,
  name,
  kind,
  piece: null,
  lines: channels,
  pan: 0,
  muted: false,
  inverted: false,
  gatedRms: level,
  peak,
  keepSides: channels === 2,
});

const LINES: readonly Channel[] = [
  line("s9", "Bass", "bass", -22, -10),
  { ...line("s10", "Guitar", "guitar", -25, -11), pan: 0.4 },
  line("s11", "Keys", "keys", -24, -10, 2),
  { ...line("s12", "Trumpet", "horn", -24, -9), pan: -0.5 },
  { ...line("s13", "Saxophone", "horn", -25, -10), pan: -0.3 },
  line("s14", "Lead voice", "vocal", -22, -8),
  { ...line("s15", "Backing voice 1", "vocal", -26, -11), pan: -0.2 },
  { ...line("s16", "Backing voice 2", "vocal", -26, -11), pan: 0.2 },
  line("s17", "Playback", "playback", -20, -8, 2),
  line("s18", "Talk", "talkback", -28, -12),
];

const performer = (id: Id, name: string, at: Pick<Listener, "x" | "y" | "facing">): Listener => ({
  ...DRUMMER,
  id,
  name,
  kind: "performer",
  bus: "m1",
  ...at,
});

/** Beside the audience and the drummer: the music director faces the band, the keys stand side-on to the kit. */
const PERFORMERS: readonly Listener[] = [
  performer("l3", "Tobi, lead voice", { x: 0, y: 3, facing: 0 }),
  performer("l4", "Lene, keys", { x: -2.6, y: 1, facing: 80 }),
  performer("l5", "Ravi, bass", { x: 1.6, y: 0.6, facing: 10 }),
  performer("l6", "Ines, music director", { x: 2.4, y: 3, facing: 180 }),
];

const input = (feed: Feed, on = true): MonitorInput => ({ feed, on, trim: 0 });

const direct = (channel: Id, tap: TapPoint = "pre-fader"): MonitorInput =>
  input({ kind: "channel", channel, side: "both", tap });

const both = (channel: Id): readonly MonitorInput[] =>
  (["left", "right"] as const).map((side) => input({ kind: "channel", channel, side, tap: "pre-fader" }));

/** The patch behind the two sides of the drums: one feed was forgotten and is off, one input is free. */
const PATCH: readonly (MonitorInput | null)[] = [
  direct("s9"),
  direct("s10"),
  ...both("s11"),
  direct("s12"),
  direct("s13"),
  direct("s14"),
  direct("s15"),
  { ...direct("s16"), on: false },
  direct("s18", "pre-eq"),
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
    desk: { ...base.desk, outputDbu: 22 },
    channels: [...base.channels.map((s) => (s.name === "Snare" ? { ...s, pan: 0.1 } : s)), ...LINES],
    buses: base.buses.map((bus) => ({
      ...bus,
      sends: bus.sends.map((send) => ({ ...send, level: SEND_DB })),
    })),
    listeners: [
      ...base.listeners.map((l) => (l.kind === "drummer" ? { ...l, name: "Mara, drums" } : l)),
      ...PERFORMERS,
    ],
    monitor: { ...base.monitor, inputs: [...base.monitor.inputs.slice(0, 2), ...PATCH] },
  };
};
