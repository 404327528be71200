import type { Feed, Id, MonitorSystem } from "./setup";
import type { Side } from "./units";

/** Indexes of the inputs that a channel has of its own. */
export const inputsOfChannel = (monitor: MonitorSystem, channel: Id): number[] =>
  monitor.inputs.flatMap((s, i) => (s?.feed.kind === "channel" && s.feed.channel === channel ? [i] : []));

/** Indexes of the inputs that a bus, or one side of it, has. */
export const inputsOfBus = (monitor: MonitorSystem, bus: Id, side?: Side): number[] =>
  monitor.inputs.flatMap((s, i) =>
    s?.feed.kind === "bus" && s.feed.bus === bus && (side ?? s.feed.side) === s.feed.side ? [i] : [],
  );

/** Indexes of the inputs of every channel and every bus that has some, looked up in one go: `inputsOfChannel` and `inputsOfBus` of each. */
export const inputsOfAll = ({
  inputs,
}: Pick<MonitorSystem, "inputs">): {
  readonly [kind in Feed["kind"]]: ReadonlyMap<Id, readonly number[]>;
} => {
  const found = { channel: new Map<Id, number[]>(), bus: new Map<Id, number[]>() };
  inputs.forEach((input, index) => {
    if (!input) return;
    const { feed } = input;
    const [of, id] = feed.kind === "channel" ? [found.channel, feed.channel] : [found.bus, feed.bus];
    const its = of.get(id);
    if (its) its.push(index);
    else of.set(id, [index]);
  });
  return found;
};
