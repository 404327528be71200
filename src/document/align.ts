import type { Feed, Id } from "../core/model/setup";
import type { SetupFile } from "./schema";

/** What is needed to know a thing again in another setup. */
interface Named {
  readonly id: Id;
  readonly name: string;
}

/** The ways to know a thing again, surest first: an id alone may be that of something else in a setup of other origin. */
const ALIKE: readonly ((a: Named, b: Named) => boolean)[] = [
  (a, b) => a.id === b.id && a.name === b.name,
  (a, b) => a.name === b.name,
  (a, b) => a.id === b.id,
];

/** The id in `to` of each thing in `from` that is there too. */
const matches = (from: readonly Named[], to: readonly Named[]): ReadonlyMap<Id, Id> => {
  const found = new Map<Id, Id>();
  const taken = new Set<Id>();
  for (const alike of ALIKE) {
    for (const thing of from) {
      if (found.has(thing.id)) continue;
      const same = to.find((other) => !taken.has(other.id) && alike(thing, other));
      if (!same) continue;
      found.set(thing.id, same.id);
      taken.add(same.id);
    }
  }
  return found;
};

/** Gives every id of `from` its id in `to`, or one that nothing has there. */
const translator = (from: readonly Named[], to: readonly Named[]): ((id: Id) => Id) => {
  const found = matches(from, to);
  const there = new Set(to.map((thing) => thing.id));
  const unlike = (id: Id): Id => (there.has(id) ? unlike(`${id}'`) : id);
  const gone = new Map(from.map(({ id }) => [id, unlike(`gone ${id}`)]));
  return (id) => found.get(id) ?? gone.get(id) ?? id;
};

/**
 * The setup `from` with the ids that the same things have in `to`, so that the two can be compared id by id.
 * The same is what has the same id and name, else the same name, else the same id.
 */
export const aligned = (from: SetupFile, to: SetupFile): SetupFile => {
  const piece = translator(from.kit.pieces, to.kit.pieces);
  const channel = translator(from.channels, to.channels);
  const bus = translator(from.buses, to.buses);
  const listener = translator(from.listeners, to.listeners);
  const feed = (f: Feed): Feed =>
    f.kind === "bus" ? { ...f, bus: bus(f.bus) } : { ...f, channel: channel(f.channel) };
  return {
    ...from,
    kit: { ...from.kit, pieces: from.kit.pieces.map((p) => ({ ...p, id: piece(p.id) })) },
    channels: from.channels.map((s) => ({
      ...s,
      id: channel(s.id),
      piece: s.piece === null ? null : piece(s.piece),
    })),
    buses: from.buses.map((m) => ({
      ...m,
      id: bus(m.id),
      sends: m.sends.map((s) => ({ ...s, channel: channel(s.channel) })),
    })),
    listeners: from.listeners.map((l) => ({
      ...l,
      id: listener(l.id),
      bus: l.bus === null ? null : bus(l.bus),
    })),
    monitor: {
      ...from.monitor,
      inputs: from.monitor.inputs.map((input) => input && { ...input, feed: feed(input.feed) }),
    },
    preferences: { ...from.preferences, first: listener(from.preferences.first) },
    recording: from.recording && {
      ...from.recording,
      channels: from.recording.channels.map((m) => ({ ...m, channel: channel(m.channel) })),
    },
  };
};
