import { BLANK_BUS, BLANK_CHANNEL, BLANK_INPUT, BLANK_SEND } from "../core/model/defaults";
import { AUDIENCE, BLANK_DESK, BLANK_MONITOR, BLANK_PREFERENCES, blankSetup } from "./blank";
import { type FileKind, ofKind } from "./migrate";
import { type ReadSetup, readNoting, readSetup } from "./read-setup";
import { isFields, Refusal } from "./reader";
import { FORMAT, type HandedOver, type SetupFile, VERSION } from "./schema";
import { filled, thinned } from "./thin";
import { logOf } from "./tick-log";
import { ENTRY, TICK } from "./ticks-file";

/** Names the format of a setup that is handed over to a helper. */
export const HAND_OVER_FORMAT = "hatside-helper";

/** A setup for a helper, in short. */
export interface HandOverFile extends HandedOver {
  readonly format: typeof HAND_OVER_FORMAT;
  /** That of the setup in it: both phones must have the same. */
  readonly version: typeof VERSION;
  readonly setup: unknown;
}

const NAMED = { id: undefined, name: undefined };

/** What a helper’s copy is written against: `undefined` stands for a field that need not be there. */
const PATTERN = {
  name: "",
  example: false,
  desk: BLANK_DESK,
  channels: [{ ...NAMED, ...BLANK_CHANNEL }],
  buses: [{ ...NAMED, stereo: true, ...BLANK_BUS, sends: [{ channel: undefined, ...BLANK_SEND }] }],
  listeners: [AUDIENCE],
  monitor: {
    ...BLANK_MONITOR,
    inputs: [{ ...BLANK_INPUT, feed: { kind: "channel", channel: undefined, bus: undefined, side: "both" } }],
  },
  preferences: BLANK_PREFERENCES,
  lineCheck: undefined,
  deskTicks: [TICK],
  tickLog: [ENTRY],
};

/** What a helper needs of a setup: the desk, the patch and the people, without levels, places, rules and notes. */
const needed = (file: SetupFile): SetupFile => {
  const blank = blankSetup(file.name);
  const { example, desk, buses, listeners, monitor, lineCheck, deskTicks, tickLog } = file;
  return {
    ...blank,
    ...{ example, desk, buses, monitor, lineCheck },
    preferences: { ...blank.preferences, first: file.preferences.first },
    channels: file.channels.map(({ id, name, numbers, lines, pan, fader, muted, inverted, directOut }) => ({
      ...BLANK_CHANNEL,
      ...{ id, name, numbers, lines, pan, fader, muted, inverted, directOut },
    })),
    listeners: listeners.map((listener) => ({
      ...listener,
      x: AUDIENCE.x,
      y: AUDIENCE.y,
      facing: AUDIENCE.facing,
    })),
    ...(deskTicks ? { deskTicks } : {}),
    ...(tickLog ? { tickLog } : {}),
  };
};

/**
 * A setup for a helper’s phone.
 * @param of its id on the shelf of this phone
 * @param now the time, as `Stamp.at`
 */
export const handOver = (file: SetupFile, of: string, now: string): HandOverFile => ({
  format: HAND_OVER_FORMAT,
  version: VERSION,
  of,
  at: [now, ...logOf(file).map((entry) => entry.at)].sort().at(-1) ?? now,
  setup: thinned(needed(file), PATTERN),
});

/** Reads what was handed over, as a helper’s copy. */
export const readHandOver = (value: unknown): ReadSetup =>
  readNoting("setup", (note) => {
    const kind: FileKind = {
      format: HAND_OVER_FORMAT,
      what: "setup for a helper",
      oldest: VERSION,
      newest: VERSION,
    };
    const { raw, version } = ofKind(value, kind);
    const setup = filled(raw.setup, PATTERN);
    if (!isFields(setup)) throw new Refusal({ code: "no setup" });
    const { kit, note: text, earphone, recording, check } = blankSetup();
    const read = readSetup({
      ...{ format: FORMAT, version, kit, note: text, earphone, recording, check },
      ...setup,
      handed: { of: raw.of, at: raw.at },
    });
    if (!read.ok) throw new Refusal(read.why);
    if (!read.file.handed) throw new Refusal({ code: "from nowhere" });
    read.notes.forEach(note);
    return read.file;
  });
