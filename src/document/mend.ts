import { nextId, type Prefix } from "../core/naming";
import type { Feed, Id, Listener, Recording, Setup, Slot, Sum } from "../core/setup";
import { amend, kept, mapped } from "./amend";
import { AUDIENCE, DRUMMER } from "./blank";
import { LIMITS } from "./limits";
import { show } from "./reader";
import type { CheckSession, SetupFile } from "./schema";

/** Takes a sentence about what was mended. */
type Note = (says: string) => void;

const ids = (list: readonly { readonly id: Id }[]): ReadonlySet<Id> => new Set(list.map((item) => item.id));

/** Every item with an id of its own: of two alike, the later gets a new one. */
const unique = <T extends { readonly id: Id; readonly name: string }>(
  prefix: Prefix,
  list: readonly T[],
  note: Note,
): readonly T[] => {
  const seen: T[] = [];
  const taken = new Set<Id>();
  for (const item of list) {
    const double = item.id === "" || taken.has(item.id);
    if (double) note(`${show(item.name)} had no id of its own and got one.`);
    const id = double ? nextId(prefix, [...list, ...seen]) : item.id;
    taken.add(id);
    seen.push(double ? { ...item, id } : item);
  }
  return mapped(list, (_, at) => seen[at] as T);
};

const person = (kind: "drummer" | "audience", listeners: readonly Listener[]): Listener => ({
  ...(kind === "drummer" ? DRUMMER : AUDIENCE),
  id: nextId("l", listeners),
});

const performers = (listeners: readonly Listener[]): Listener[] =>
  listeners.filter((l) => l.kind === "performer");

/** Exactly one drummer, and an audience. */
const mendListeners = (listeners: readonly Listener[], sums: readonly Sum[], note: Note) => {
  const known = ids(sums);
  const drummer = listeners.find((l) => l.kind === "drummer");
  let list = mapped(listeners, (listener): Listener => {
    if (listener.kind === "drummer" && listener !== drummer) {
      note(`${show(listener.name)} was a second drummer and is a performer now.`);
      return { ...listener, kind: "performer" };
    }
    return listener;
  });
  list = mapped(list, (listener) => {
    if (listener.sum === null || known.has(listener.sum)) return listener;
    note(`${show(listener.name)} heard a sum that is not there and hears none now.`);
    return { ...listener, sum: null };
  });
  for (const kind of ["audience", "drummer"] as const) {
    if (list.some((l) => l.kind === kind)) continue;
    const last = list.length < LIMITS.listeners ? undefined : (performers(list).at(-1) ?? list.at(-1));
    note(
      last
        ? `There was no ${kind} among the listeners, and no room for one more: it is ${show(last.name)} now.`
        : `There was no ${kind} among the listeners: added.`,
    );
    list = last ? mapped(list, (l) => (l === last ? { ...l, kind } : l)) : [...list, person(kind, list)];
  }
  return list;
};

/** Sends of sources that are there, each source once. */
const mendSends = (sum: Sum, sources: ReadonlySet<Id>, note: Note): Sum => {
  const seen = new Set<Id>();
  const sends = kept(sum.sends, (send) => {
    const good = sources.has(send.source) && !seen.has(send.source);
    if (!good) note(`${show(sum.name)} had a send of a source that is not there or twice: taken out.`);
    seen.add(send.source);
    return good;
  });
  return amend(sum, { sends });
};

/** What a slot can take as things are: null when there is no such source or leg. */
const mendFeed = (feed: Feed, setup: Pick<Setup, "sources" | "sums">): Feed | null => {
  if (feed.kind === "leg") {
    const sum = setup.sums.find((s) => s.id === feed.sum);
    return sum && (sum.stereo || feed.leg === "left") ? feed : null;
  }
  const source = setup.sources.find((s) => s.id === feed.source);
  if (!source) return null;
  return source.channels === 1 && feed.channel !== "both" ? { ...feed, channel: "both" } : feed;
};

const mendSlots = (setup: Setup, note: Note): readonly (Slot | null)[] => {
  const { slots, slotCount } = setup.monitor;
  const list = mapped(slots, (slot, at) => {
    const feed = slot && mendFeed(slot.feed, setup);
    if (!slot || feed === slot.feed) return slot;
    note(`Slot ${at + 1} took something that is not there: ${feed ? "mended" : "it is free now"}.`);
    return feed && { ...slot, feed };
  });
  // As many as the system has; more only while something is in them.
  const length = Math.max(slotCount, ...list.map((slot, at) => (slot ? at + 1 : 0)));
  return list.length === length ? list : Array.from({ length }, (_, at) => list[at] ?? null);
};

const mendRecording = (recording: Recording, sources: ReadonlySet<Id>, note: Note): Recording => {
  const stays = recording.sources.map(
    (m, at) => sources.has(m.source) && recording.sources.findIndex((o) => o.source === m.source) === at,
  );
  if (stays.every(Boolean)) return recording;
  note(`${show(recording.name)} had figures of a source that is not there or twice: taken out.`);
  const only = <T>(list: readonly T[]): T[] => list.filter((_, at) => stays[at]);
  return {
    ...recording,
    sources: only(recording.sources),
    correlation: only(recording.correlation).map(only),
  };
};

const mendCheck = (check: CheckSession, file: SetupFile, note: Note): CheckSession | null => {
  if (!file.listeners.some((l) => l.id === check.listener)) {
    note("The check at the kit was for a listener who is not there: ended.");
    return null;
  }
  const pieces = ids(file.kit.pieces);
  const hits = kept(check.hits, (hit) => pieces.has(hit.piece));
  if (hits !== check.hits) note("The check at the kit had hits of a piece that is not there: taken out.");
  return amend(check, { hits });
};

const mendTicks = (ticks: SetupFile["lineCheck"], file: SetupFile, note: Note): SetupFile["lineCheck"] => {
  const all = Object.entries(ticks);
  const good = all.filter(([at]) => /^(0|[1-9]\d{0,2})$/.test(at) && file.monitor.slots[Number(at)]);
  if (good.length === all.length) return ticks;
  note("The line check had ticks of free slots: taken out.");
  return Object.fromEntries(good);
};

/** Whose image matters most: somebody who is there, else the drummer. */
const mendFirst = ({ listeners, wishes }: Setup, note: Note): Id => {
  const isThere = listeners.some((l) => l.id === wishes.first);
  if (!isThere) note("The listener who matters most is not there: it is the drummer now.");
  return isThere ? wishes.first : (listeners.find((l) => l.kind === "drummer")?.id ?? "");
};

/**
 * A setup whose references all hold: ids are unique, what is named exists, there is one drummer and an audience.
 * The very same file when nothing was amiss. Commands that take something away end here, so that what hangs on it
 * is taken out in one place; a file from outside passes through it too.
 * @param note is told of each thing mended, in a sentence
 */
export const mend = (file: SetupFile, note: Note = () => {}): SetupFile => {
  const sources = unique("s", file.sources, note);
  const pieces = unique("p", file.kit.pieces, note);
  const sums = unique("m", file.sums, note);
  const listeners = mendListeners(unique("l", file.listeners, note), sums, note);
  const knownPieces = ids(pieces);
  const knownSources = ids(sources);
  const sound = amend(file, {
    sources: mapped(sources, (source) => {
      if (source.piece === null || knownPieces.has(source.piece)) return source;
      note(`${show(source.name)} stood at a piece that is not there and stands at none now.`);
      return { ...source, piece: null };
    }),
    kit: amend(file.kit, { pieces }),
    sums: mapped(sums, (sum) => mendSends(sum, knownSources, note)),
    listeners,
    recording: file.recording && mendRecording(file.recording, knownSources, note),
  });
  const patched = amend(sound, {
    monitor: amend(sound.monitor, { slots: mendSlots(sound, note) }),
    wishes: amend(sound.wishes, { first: mendFirst(sound, note) }),
  });
  return amend(patched, {
    check: patched.check && mendCheck(patched.check, patched, note),
    lineCheck: mendTicks(patched.lineCheck, patched, note),
  });
};
