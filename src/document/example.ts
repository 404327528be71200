import { BLANK_BUS, BLANK_CHANNEL, BLANK_DIRECT_OUT, BLANK_INPUT, BLANK_SEND } from "../core/model/defaults";
import { sitsAtKit } from "../core/model/kinds";
import type { Bus, Channel, ChannelKind, Feed, Id, Listener, MonitorInput } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { DRUMMER } from "./blank";
import type { SetupFile } from "./schema";
import { templateSetup } from "./templates";

const line = (
  id: Id,
  number: number,
  name: string,
  kind: ChannelKind,
  gatedRms: Db,
  peak: Db,
  more: Partial<Channel> = {},
): Channel => {
  const lines = more.lines ?? 1;
  return {
    ...BLANK_CHANNEL,
    id,
    name,
    kind,
    numbers: lines === 2 ? [number, number + 1] : [number],
    gatedRms,
    peak,
    keepSides: lines === 2,
    ...more,
  };
};

const TALK = { ...BLANK_DIRECT_OUT, tap: "pre-eq" } as const;
const NO_DIRECT_OUT = { ...BLANK_DIRECT_OUT, on: false } as const;

const LINES: readonly Channel[] = [
  line("s9", 9, "Bass", "bass", -22, -10),
  line("s10", 10, "Guitar", "guitar", -25, -11, { pan: 0.4 }),
  line("s11", 11, "Keys", "keys", -24, -10, { lines: 2 }),
  line("s12", 13, "Trumpet", "horn", -24, -9, { pan: -0.5 }),
  line("s13", 14, "Saxophone", "horn", -25, -10, { pan: -0.3 }),
  line("s14", 15, "Lead vox", "lead-vocal", -22, -8),
  line("s15", 16, "BV 1", "vocal", -26, -11, { pan: -0.2 }),
  line("s16", 17, "BV 2", "vocal", -26, -11, { pan: 0.2 }),
  line("s17", 19, "Playback", "playback", -20, -8, { lines: 2 }),
  line("s18", 21, "Talk", "talkback", -28, -12, { directOut: TALK }),
  line("s19", 22, "Speech", "speech", -26, -12, { directOut: NO_DIRECT_OUT }),
  line("s20", 23, "Room mic", "audience", -38, -20, { directOut: NO_DIRECT_OUT, fader: null }),
];

/** What everybody needs and nobody mixes: the speaker’s microphone with its fader, the room whatever FOH does. */
const FOLD_BACK: Bus = {
  ...BLANK_BUS,
  id: "m2",
  name: "Fold-back",
  numbers: [7],
  stereo: false,
  sends: [
    { ...BLANK_SEND, channel: "s19" },
    { ...BLANK_SEND, channel: "s20", level: -3, tap: "pre-fader" },
  ],
};

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
  performer("l3", "Tobi, lead vox", { x: 0, y: 3, facing: 0 }),
  performer("l4", "Lene, keys", { x: -2.6, y: 1, facing: 80 }),
  performer("l5", "Ravi, bass", { x: 1.6, y: 0.6, facing: 10 }),
  performer("l6", "Ines, music director", { x: 2.4, y: 3, facing: 180 }),
];

const input = (feed: Feed, on = true): MonitorInput => ({ ...BLANK_INPUT, feed, on });

const direct = (channel: Id, on = true): MonitorInput =>
  input({ kind: "channel", channel, side: "both" }, on);

const both = (channel: Id): readonly MonitorInput[] =>
  (["left", "right"] as const).map((side) => input({ kind: "channel", channel, side }));

/** The patch behind the two sides of the drums: one feed was forgotten and is off, one input is free. */
const PATCH: readonly (MonitorInput | null)[] = [
  direct("s9"),
  direct("s10"),
  ...both("s11"),
  direct("s12"),
  direct("s13"),
  direct("s14"),
  direct("s15"),
  direct("s16", false),
  direct("s18"),
  ...both("s17"),
  input({ kind: "bus", bus: FOLD_BACK.id, side: "left" }),
  null,
];

/** Input 1 is fed by the first output port, and so on. */
const onPorts = (inputs: readonly (MonitorInput | null)[]): readonly (MonitorInput | null)[] =>
  inputs.map((taken, at) => taken && { ...taken, port: at + 1 });

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
    desk: { ...base.desk, name: "Hall desk, invented", outputDbu: 22 },
    channels: [...base.channels.map((s) => (s.name === "Snare" ? { ...s, pan: 0.1 } : s)), ...LINES],
    buses: [
      ...base.buses.map((bus) => ({
        ...bus,
        sends: bus.sends.map((send) => ({ ...send, level: SEND_DB })),
      })),
      FOLD_BACK,
    ],
    listeners: [
      ...base.listeners.map((l) => (sitsAtKit(l) ? { ...l, name: "Mara, drums" } : l)),
      ...PERFORMERS,
    ],
    monitor: { ...base.monitor, inputs: onPorts([...base.monitor.inputs.slice(0, 2), ...PATCH]) },
  };
};
