import { readTickLog } from "./desk-tick-field";
import { type FileKind, ofKind } from "./migrate";
import { type Read, readNoting } from "./read-setup";
import { Refusal } from "./reader";
import { type SetupFile, type TickEntry, VERSION } from "./schema";
import { filled, thinned } from "./thin";
import { tickedSince } from "./tick-log";

/** Names the format of ticks on their way back from a helper. */
export const TICKS_FORMAT = "hatside-ticks";

/** What a helper ticked, and the setup on another phone that it is for. */
export interface TicksFile {
  readonly format: typeof TICKS_FORMAT;
  readonly version: typeof VERSION;
  /** As `HandedOver.of`. */
  readonly of: string;
  /** Name of the helper’s copy. */
  readonly name: string;
  readonly ticks: readonly TickEntry[];
}

/** What a tick of the desk list is written against. */
export const TICK = {
  ...{ control: undefined, id: undefined, bus: "", value: undefined },
  ...{ at: undefined, by: undefined },
};
/** What an entry of a log is written against. */
export const ENTRY = { ...TICK, said: true };

/** The ticks of a helper’s copy, in short, as they go back in a link. */
export const ticksToSend = (file: SetupFile): object => ({
  format: TICKS_FORMAT,
  version: VERSION,
  of: file.handed?.of,
  name: file.name,
  ticks: thinned(tickedSince(file), [ENTRY]),
});

/** Reads ticks that came back. */
export const readTicks = (value: unknown): Read<TicksFile> =>
  readNoting("list of ticks", (note) => {
    const kind: FileKind = { format: TICKS_FORMAT, what: "list of ticks", oldest: VERSION, newest: VERSION };
    const { raw, version: _ } = ofKind(value, kind);
    const { of, name } = raw;
    if (typeof of !== "string" || typeof name !== "string") throw new Refusal({ code: "for nothing" });
    const ticks = readTickLog(filled(raw.ticks, [ENTRY]), "ticks", note) ?? [];
    return { format: TICKS_FORMAT, version: VERSION, of, name, ticks };
  });

/** Whether something that was read is ticks. */
export const isTicks = (file: { readonly format: string }): file is TicksFile => file.format === TICKS_FORMAT;
