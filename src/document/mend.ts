import { nextId, type Prefix } from "../core/model/ids";
import { isFurther, sitsAtKit } from "../core/model/kinds";
import type { Bus, Channel, Feed, Id, Listener, MonitorInput, Recording, Setup } from "../core/model/setup";
import type { ReadNote } from "../text/reading";
import { amend, kept, mapped } from "./amend";
import { ALWAYS_THERE } from "./blank";
import { ofWhatIsThere } from "./desk-tick-field";
import { LIMITS } from "./limits";
import { linePlace } from "./line-place";
import type { CheckSession, SetupFile } from "./schema";
import { isTraceable } from "./trace-session";

/** Is told of something that was mended. */
type Note = (note: ReadNote) => void;

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
    if (double) note({ code: "id given", name: item.name });
    const id = double ? nextId(prefix, [...list, ...seen]) : item.id;
    taken.add(id);
    seen.push(double ? { ...item, id } : item);
  }
  return mapped(list, (_, at) => seen[at] as T);
};

const performers = (listeners: readonly Listener[]): Listener[] => listeners.filter(isFurther);

/** Exactly one drummer, and an audience. */
const mendListeners = (listeners: readonly Listener[], buses: readonly Bus[], note: Note) => {
  const known = ids(buses);
  const drummer = listeners.find(sitsAtKit);
  let list = mapped(listeners, (listener): Listener => {
    if (sitsAtKit(listener) && listener !== drummer) {
      note({ code: "second drummer", name: listener.name });
      return { ...listener, kind: "performer" };
    }
    return listener;
  });
  list = mapped(list, (listener) => {
    if (listener.bus === null || known.has(listener.bus)) return listener;
    note({ code: "no such bus", name: listener.name });
    return { ...listener, bus: null };
  });
  for (const blank of Object.values(ALWAYS_THERE)) {
    const { kind } = blank;
    if (list.some((l) => l.kind === kind)) continue;
    const last = list.length < LIMITS.listeners ? undefined : (performers(list).at(-1) ?? list.at(-1));
    note(last ? { code: "listener turned", kind, name: last.name } : { code: "listener added", kind });
    list = last
      ? mapped(list, (l) => (l === last ? { ...l, kind } : l))
      : [...list, { ...blank, id: nextId("l", list) }];
  }
  return list;
};

/** Sends of channels that are there, each channel once. */
const mendSends = (bus: Bus, channels: ReadonlySet<Id>, note: Note): Bus => {
  const seen = new Set<Id>();
  const sends = kept(bus.sends, (send) => {
    const good = channels.has(send.channel) && !seen.has(send.channel);
    if (!good) note({ code: "no such send", name: bus.name });
    seen.add(send.channel);
    return good;
  });
  return amend(bus, { sends });
};

/** What an input can take as things are: null when there is no such channel or side. */
const mendFeed = (feed: Feed, setup: Pick<Setup, "channels" | "buses">): Feed | null => {
  if (feed.kind === "bus") {
    const bus = setup.buses.find((s) => s.id === feed.bus);
    return bus && (bus.stereo || feed.side === "left") ? feed : null;
  }
  const channel = setup.channels.find((s) => s.id === feed.channel);
  if (!channel) return null;
  return channel.lines === 1 && feed.side !== "both" ? { ...feed, side: "both" } : feed;
};

const mendInputs = (setup: Setup, note: Note): readonly (MonitorInput | null)[] => {
  const { inputs, inputCount } = setup.monitor;
  const list = mapped(inputs, (input, at) => {
    const feed = input && mendFeed(input.feed, setup);
    if (!input || feed === input.feed) return input;
    note({ code: "no such feed", index: at, isFree: !feed });
    return feed && { ...input, feed };
  });
  // As many as the system has; more only while something is in them.
  const length = Math.max(inputCount, ...list.map((input, at) => (input ? at + 1 : 0)));
  return list.length === length ? list : Array.from({ length }, (_, at) => list[at] ?? null);
};

/** Who must hear a channel: listeners who are there. */
const mendReach = (channel: Channel, listeners: ReadonlySet<Id>, note: Note): Channel => {
  const reach = channel.rule?.reach;
  if (!reach || reach === "all") return channel;
  const there = kept(reach, (id, at) => listeners.has(id) && reach.indexOf(id) === at);
  if (there === reach) return channel;
  note({ code: "no such reach", name: channel.name });
  return { ...channel, rule: { ...channel.rule, reach: there } };
};

const mendPiece = (channel: Channel, pieces: ReadonlySet<Id>, note: Note): Channel => {
  if (channel.piece === null || pieces.has(channel.piece)) return channel;
  note({ code: "no such piece", name: channel.name });
  return { ...channel, piece: null };
};

const mendRecording = (recording: Recording, channels: ReadonlySet<Id>, note: Note): Recording => {
  const stays = recording.channels.map(
    (m, at) => channels.has(m.channel) && recording.channels.findIndex((o) => o.channel === m.channel) === at,
  );
  if (stays.every(Boolean)) return recording;
  note({ code: "no such figures", name: recording.name });
  const only = <T>(list: readonly T[]): T[] => list.filter((_, at) => stays[at]);
  return {
    ...recording,
    channels: only(recording.channels),
    correlation: only(recording.correlation).map(only),
  };
};

const mendCheck = (check: CheckSession, file: SetupFile, note: Note): CheckSession | null => {
  if (!file.listeners.some((l) => l.id === check.listener)) {
    note({ code: "check ended" });
    return null;
  }
  const pieces = ids(file.kit.pieces);
  const hits = kept(check.hits, (hit) => pieces.has(hit.piece));
  if (hits !== check.hits) note({ code: "hits removed" });
  return amend(check, { hits });
};

const mendTicks = (ticks: SetupFile["lineCheck"], file: SetupFile, note: Note): SetupFile["lineCheck"] => {
  const all = Object.entries(ticks);
  const known = ids(file.listeners);
  const good = all.filter(([key]) => {
    const place = linePlace(key);
    if (!place || !file.monitor.inputs[place.index]) return false;
    return place.listener === null || known.has(place.listener);
  });
  if (good.length === all.length) return ticks;
  note({ code: "ticks removed" });
  return Object.fromEntries(good);
};

/** A trace of what is not there any more is over. */
const mendTrace = (file: SetupFile, note: Note): SetupFile => {
  const { trace, ...rest } = file;
  if (!trace || isTraceable(file, trace)) return file;
  note({ code: "trace ended" });
  return rest;
};

/** Whose image matters most: somebody who is there, else the drummer. */
const mendFirst = ({ listeners, preferences: wishes }: Setup, note: Note): Id => {
  const isThere = listeners.some((l) => l.id === wishes.first);
  if (!isThere) note({ code: "no such first" });
  return isThere ? wishes.first : (listeners.find(sitsAtKit)?.id ?? "");
};

/**
 * A setup whose references all hold: ids are unique, what is named exists, there is one drummer and an audience.
 * The very same file when nothing was amiss. Commands that take something away end here, so that what hangs on it
 * is taken out in one place; a file from outside passes through it too.
 * @param note is told of each thing mended
 */
export const mend = (file: SetupFile, note: Note = () => {}): SetupFile => {
  const channels = unique("s", file.channels, note);
  const pieces = unique("p", file.kit.pieces, note);
  const buses = unique("m", file.buses, note);
  const listeners = mendListeners(unique("l", file.listeners, note), buses, note);
  const knownPieces = ids(pieces);
  const knownListeners = ids(listeners);
  const knownChannels = ids(channels);
  const sound = amend(file, {
    channels: mapped(channels, (channel) =>
      mendReach(mendPiece(channel, knownPieces, note), knownListeners, note),
    ),
    kit: amend(file.kit, { pieces }),
    buses: mapped(buses, (bus) => mendSends(bus, knownChannels, note)),
    listeners,
    recording: file.recording && mendRecording(file.recording, knownChannels, note),
  });
  const patched = amend(sound, {
    monitor: amend(sound.monitor, { inputs: mendInputs(sound, note) }),
    preferences: amend(sound.preferences, { first: mendFirst(sound, note) }),
  });
  const { deskTicks, tickLog } = patched;
  return amend(mendTrace(patched, note), {
    ...(deskTicks ? { deskTicks: ofWhatIsThere(deskTicks, patched) } : {}),
    ...(tickLog ? { tickLog: ofWhatIsThere(tickLog, patched) } : {}),
    check: patched.check && mendCheck(patched.check, patched, note),
    lineCheck: mendTicks(patched.lineCheck, patched, note),
  });
};
