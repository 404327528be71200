import { TAP_ADVICE } from "../../core/inputs/taps";
import { firstFree } from "../../core/inputs/usage";
import { BLANK_INPUT } from "../../core/model/defaults";
import { inputsOfChannel } from "../../core/model/inputs";
import type { Feed, Id, MonitorInput } from "../../core/model/setup";
import { linesOf, sidesOf } from "../../core/model/sides";
import { amend, amendIn } from "../amend";
import { type Command, step } from "../command";
import { LIMITS } from "../limits";
import type { SetupFile } from "../schema";

/** An input as it begins: on, untouched. */
export const newInput = (feed: Feed): MonitorInput => ({ ...BLANK_INPUT, feed });

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
  step("assign channel", (file) => {
    const channel = file.channels.find((s) => s.id === id);
    if (!channel) return file;
    const fed = placed(
      file,
      linesOf(channel).map((side) => ({ kind: "channel", channel: id, side })),
    );
    if (fed === file || inputsOfChannel(file.monitor, id).length > 0) return fed;
    const tap = TAP_ADVICE[channel.kind].better;
    const directOut = { ...channel.directOut, on: true, tap };
    return amend(fed, { channels: amendIn(fed.channels, id, { directOut }) });
  });

/** The sides of a bus into neighbouring inputs, in the order in which they are meant. */
export const assignBus = (id: Id): Command =>
  step("assign bus", (file) => {
    const bus = file.buses.find((s) => s.id === id);
    if (!bus) return file;
    const sides = sidesOf(bus).map((side): Feed => ({ kind: "bus", bus: id, side }));
    return placed(file, bus.swapped ? sides.reverse() : sides);
  });
