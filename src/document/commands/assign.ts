import { TAP_ADVICE } from "../../core/inputs/taps";
import { firstFree } from "../../core/inputs/usage";
import type { Feed, Id, MonitorInput } from "../../core/model/setup";
import { linesOf, sidesOf } from "../../core/model/sides";
import { amend } from "../amend";
import { type Command, step } from "../command";
import { LIMITS } from "../limits";
import type { SetupFile } from "../schema";

/** An input as it begins: on, untouched. */
export const newInput = (feed: Feed): MonitorInput => ({ feed, on: true, trim: 0 });

/** Feeds side by side into the first free inputs; where there is no room they go beyond the count, and are shown there. */
const placed = (file: SetupFile, feeds: readonly Feed[]): SetupFile => {
  const { monitor } = file;
  const end = Math.max(monitor.inputCount, monitor.inputs.length);
  const at = firstFree(monitor, feeds.length)?.[0] ?? end;
  const length = Math.max(monitor.inputs.length, at + feeds.length);
  if (length > LIMITS.inputs) return file;
  const inputs = Array.from({ length }, (_, i) => {
    const feed = feeds[i - at];
    return feed ? newInput(feed) : (monitor.inputs[i] ?? null);
  });
  return amend(file, { monitor: amend(monitor, { inputs }) });
};

/** A direct feed of a channel, taken where it fits such a channel; a stereo channel takes two neighbours. */
export const assignChannel = (id: Id): Command =>
  step("place channel", (file) => {
    const channel = file.channels.find((s) => s.id === id);
    if (!channel) return file;
    const tap = TAP_ADVICE[channel.kind].better;
    return placed(
      file,
      linesOf(channel).map((side) => ({ kind: "channel", channel: id, side, tap })),
    );
  });

/** The sides of a bus into neighbouring inputs, in the order in which they are meant. */
export const assignBus = (id: Id): Command =>
  step("place sum", (file) => {
    const bus = file.buses.find((s) => s.id === id);
    if (!bus) return file;
    const sides = sidesOf(bus).map((side): Feed => ({ kind: "bus", bus: id, side }));
    return placed(file, bus.swapped ? sides.reverse() : sides);
  });
