import type { Id, MonitorSystem } from "./setup";
import type { Side } from "./units";

/** Indexes of the inputs that a channel has of its own. */
export const inputsOfChannel = (monitor: MonitorSystem, channel: Id): number[] =>
  monitor.inputs.flatMap((s, i) => (s?.feed.kind === "channel" && s.feed.channel === channel ? [i] : []));

/** Indexes of the inputs that a bus, or one side of it, has. */
export const inputsOfBus = (monitor: MonitorSystem, bus: Id, side?: Side): number[] =>
  monitor.inputs.flatMap((s, i) =>
    s?.feed.kind === "bus" && s.feed.bus === bus && (side ?? s.feed.side) === s.feed.side ? [i] : [],
  );
