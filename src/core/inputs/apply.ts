import { isInputOn } from "../mix/taps";
import { BLANK_BUS, BLANK_INPUT, BLANK_SEND } from "../model/defaults";
import { nextId, uniqueName } from "../model/ids";
import type { Bus, Feed, Id, MonitorInput, Send, Setup } from "../model/setup";
import { withBus } from "../model/update";
import { withinCount } from "./arrange";
import { APART } from "./costs";
import type { Move } from "./move";

type Inputs = readonly (MonitorInput | null)[];

const without = (inputs: Inputs, indexes: readonly number[]): (MonitorInput | null)[] =>
  inputs.map((input, i) => (indexes.includes(i) ? null : input));

const withInputs = (setup: Setup, inputs: Inputs): Setup => ({
  ...setup,
  monitor: { ...setup.monitor, inputs },
});

/** A send as loud as the channel comes in by these inputs: at the trim of the first that is on; off where none is. */
const sendOf = (setup: Setup, channel: Id, inputs: readonly number[]): Send => {
  const mine = inputs
    .map((i) => setup.monitor.inputs[i])
    .filter((s) => s?.feed.kind === "channel" && s.feed.channel === channel);
  const input = mine.find((s) => isInputOn(setup, s));
  return { ...BLANK_SEND, channel, level: input ? input.trim : null };
};

const fold = (setup: Setup, move: Move & { move: "fold" }): Setup => {
  const input = setup.monitor.inputs[move.keeps] as MonitorInput;
  const feed: Feed =
    input.feed.kind === "bus" ? { ...input.feed, side: "left" } : { ...input.feed, side: "both" };
  const inputs = without(setup.monitor.inputs, move.inputs);
  inputs[move.keeps] = { ...input, feed };
  const fed = withInputs(setup, inputs);
  return move.of === "bus"
    ? withBus(fed, move.id, (s) => ({ ...s, stereo: false, swapped: false, folded: false }))
    : fed;
};

const into = (setup: Setup, move: Move & { move: "into" }): Setup => {
  const send = sendOf(setup, move.channel, move.inputs);
  return withBus(withInputs(setup, without(setup.monitor.inputs, move.inputs)), move.bus, (s) => ({
    ...s,
    sends: [...s.sends.filter((o) => o.channel !== move.channel), send],
  }));
};

/** What a new sum of these channels is called. */
export const groupName = (setup: Setup, channels: readonly Id[]): string => {
  const first = setup.channels.find((s) => channels.includes(s.id));
  const stem = (first && APART[first.kind].family) ?? "Bus";
  return uniqueName(stem, setup.buses);
};

const together = (setup: Setup, move: Move & { move: "together" }): Setup => {
  const bus: Bus = {
    ...BLANK_BUS,
    id: nextId("m", setup.buses),
    name: groupName(setup, move.channels),
    stereo: false,
    sends: move.channels.map((channel) => sendOf(setup, channel, move.inputs)),
  };
  const inputs = without(setup.monitor.inputs, move.inputs);
  inputs[Math.min(...move.inputs)] = { ...BLANK_INPUT, feed: { kind: "bus", bus: bus.id, side: "left" } };
  return { ...withInputs(setup, inputs), buses: [...setup.buses, bus] };
};

/** A setup after one move; the inputs it frees stay where they are. */
export const applyMove = (setup: Setup, move: Move): Setup => {
  if (move.move === "fold") return fold(setup, move);
  if (move.move === "into") return into(setup, move);
  if (move.move === "together") return together(setup, move);
  return withInputs(setup, without(setup.monitor.inputs, move.inputs));
};

/** A setup after all the moves, what lay beyond the count moved into what they freed. */
export const applyMoves = (setup: Setup, moves: readonly Move[]): Setup => {
  const moved = moves.reduce(applyMove, setup);
  return withInputs(moved, withinCount(moved));
};
