import { controlKey } from "../core/inputs/controls";
import { ofWhatIsThere } from "./desk-tick-field";
import { LIMITS } from "./limits";
import { type LinePlace, lineKey } from "./line-place";
import type { DeskTick, SetupFile, Stamp, TickEntry } from "./schema";

/** What a tick is about, without who said what when. */
export type TickSubject = Pick<TickEntry, "control" | "id" | "bus" | "value">;

/** What a tick of the line check is about: what is in an input now, at that place; null where the input is free. */
export const lineSubject = (
  { monitor }: Pick<SetupFile, "monitor">,
  { index, listener }: LinePlace,
): TickSubject | null => {
  const feed = monitor.inputs[index]?.feed;
  return feed
    ? { control: "line check", id: String(index), bus: listener ?? "", value: JSON.stringify(feed) }
    : null;
};

/** The place that a tick of the line check is about. */
const placeOf = ({ id, bus }: Pick<TickEntry, "id" | "bus">): LinePlace => ({
  index: Number(id),
  listener: bus === "" ? null : bus,
});

/** A key for what an entry is about: a control, or one feed in one input. */
const subjectKey = ({ control, id, bus, value }: TickSubject): string =>
  control === "line check" ? JSON.stringify([control, id, bus, value]) : controlKey({ control, id, bus });

/** The whole of an entry as text, the time first: entries that say the same are one, and every phone has one order. */
const wholeOf = ({ at, by, control, id, bus, value, said }: TickEntry): string =>
  JSON.stringify([at, by, control, id, bus, value, said]);

/** The entries of both, each once, by time; the very same list where the second adds nothing. */
export const mergeLogs = (log: readonly TickEntry[], more: readonly TickEntry[]): readonly TickEntry[] => {
  const all = new Map(log.map((entry) => [wholeOf(entry), entry]));
  const before = all.size;
  for (const entry of more) if (!all.has(wholeOf(entry))) all.set(wholeOf(entry), entry);
  if (all.size === before) return log;
  return [...all].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, entry]) => entry);
};

const entryOf = ({ control, id, bus, value, at, by }: DeskTick): TickEntry => ({
  ...{ control, id, bus, value, said: true },
  ...{ at, by },
});

/** Everything that was said in a setup, by time: what is written in its log, and the ticks that stand in the desk list. */
export const logOf = ({ tickLog = [], deskTicks = [] }: SetupFile): readonly TickEntry[] =>
  mergeLogs(tickLog, deskTicks.map(entryOf));

/** A setup with a log; what stands in its desk list is not written a second time. */
const logged = (file: SetupFile, log: readonly TickEntry[]): SetupFile => {
  const { tickLog: _, ...rest } = file;
  const standing = new Set(file.deskTicks?.map((tick) => wholeOf(entryOf(tick))));
  const tickLog = log.filter((entry) => !standing.has(wholeOf(entry)));
  return tickLog.length > 0 ? { ...rest, tickLog } : rest;
};

/** The last word about each thing, whoever said it. */
const lastWords = (log: readonly TickEntry[]): ReadonlyMap<string, TickEntry> =>
  new Map(log.map((entry) => [subjectKey(entry), entry]));

/** What was said of each thing, the latest first. */
export const wordsBySubject = (
  log: readonly TickEntry[] = [],
): ((about: TickSubject | null) => readonly TickEntry[]) => {
  const words = new Map<string, TickEntry[]>();
  for (const entry of log) {
    const key = subjectKey(entry);
    words.set(key, [entry, ...(words.get(key) ?? [])]);
  }
  return (about) => (about && words.get(subjectKey(about))) ?? [];
};

/** A setup in which the last words are these; ticks of the line check of another feed than is there change nothing. */
const holding = (file: SetupFile, words: readonly TickEntry[]): SetupFile => {
  const { deskTicks = [], ...rest } = file;
  const line = new Map(Object.entries(file.lineCheck));
  const desk = new Map(deskTicks.map((tick) => [controlKey(tick), tick]));
  for (const { control, id, bus, value, said, at, by } of words) {
    if (control === "line check") {
      const place = placeOf({ id, bus });
      if (lineSubject(file, place)?.value !== value) continue;
      if (said === null) line.delete(lineKey(place));
      else line.set(lineKey(place), said);
      continue;
    }
    const tick: DeskTick = { control, id, bus, value, at, by };
    desk.delete(controlKey(tick));
    if (said) desk.set(controlKey(tick), tick);
  }
  const lineCheck = Object.fromEntries(line);
  return { ...rest, lineCheck, ...(desk.size > 0 ? { deskTicks: [...desk.values()] } : {}) };
};

/** Nobody, at no time that is known. */
export const NOBODY: Stamp = { at: "", by: "" };

const after = (at: string): string => new Date(Date.parse(at) + 1).toISOString();

/**
 * A setup in which somebody has said something, each thing once: in place of their own last word about it, beside the
 * words of others. It holds though the clock of another phone is ahead: its time is after what was said before.
 * Nothing happens beyond `LIMITS.deskTicks`. What nobody said at no time holds, but is not written down.
 */
export const withWords = (file: SetupFile, words: readonly TickEntry[]): SetupFile => {
  const log = logOf(file);
  const before = lastWords(log);
  const timed = words.map((word) => {
    const latest = [before.get(subjectKey(word))?.at ?? "", file.handed?.at ?? ""].sort().at(-1) ?? "";
    return { ...word, at: word.at > latest || latest === "" ? word.at : after(latest) };
  });
  const ownKey = (entry: TickEntry): string => JSON.stringify([entry.by, subjectKey(entry)]);
  const own = new Set(timed.map(ownKey));
  const said = timed.filter((word) => word.at !== "");
  const next = mergeLogs(
    log.filter((entry) => !own.has(ownKey(entry))),
    said,
  );
  return next.length > LIMITS.deskTicks ? file : logged(holding(file, timed), next);
};

/** Those entries that are about what the setup has now. */
const entriesFor = (file: SetupFile, entries: readonly TickEntry[]): readonly TickEntry[] =>
  ofWhatIsThere(entries, file).filter(
    (entry) => entry.control !== "line check" || lineSubject(file, placeOf(entry))?.value === entry.value,
  );

/**
 * A setup with what was said on another phone: every entry about what it has now is kept, none of its own is lost, and
 * of each thing the last word holds. The very same setup where nothing is new, or it would hold more than it may.
 */
export const withLog = (file: SetupFile, entries: readonly TickEntry[]): SetupFile => {
  const log = logOf(file);
  const next = mergeLogs(log, entriesFor(file, entries));
  if (next === log || next.length > LIMITS.deskTicks) return file;
  const were = lastWords(log);
  const changed = [...lastWords(next)].filter(([key, word]) => were.get(key) !== word);
  return logged(
    holding(
      file,
      changed.map(([, word]) => word),
    ),
    next,
  );
};

/** What was ticked on a helper’s copy since it was handed over. */
export const tickedSince = (file: SetupFile): readonly TickEntry[] => {
  const { handed } = file;
  return handed ? logOf(file).filter((entry) => entry.at > handed.at) : [];
};
