import { gainOf } from "../level/decibels";
import type { Bus, Id, MonitorInput, MonitorSystem, Setup } from "../model/setup";
import type { Db, Gain, Side, Sides } from "../model/units";
import { withBus } from "../model/update";

/** Index of the input by which a side of a bus arrives: the first that is on, else the first that takes it; −1 without one. */
export const inputOfSide = (monitor: MonitorSystem, bus: Bus, side: Side): number => {
  const takes = (s: MonitorInput | null): boolean =>
    s?.feed.kind === "bus" && s.feed.bus === bus.id && s.feed.side === side;
  const on = monitor.inputs.findIndex((s) => s?.on && takes(s));
  return on >= 0 ? on : monitor.inputs.findIndex(takes);
};

/** How the two sides of a pair lie in the inputs. */
export type PairOrder = "normal" | "swapped" | "split" | "partly" | "unassigned";

/** How the two sides of a pair lie in the inputs: neighbours in order, neighbours in reverse, apart, only one, none. */
export const pairOrder = (monitor: MonitorSystem, bus: Bus): PairOrder => {
  const left = inputOfSide(monitor, bus, "left");
  const right = inputOfSide(monitor, bus, "right");
  if (left < 0 && right < 0) return "unassigned";
  if (left < 0 || right < 0) return "partly";
  return right === left + 1 ? "normal" : right === left - 1 ? "swapped" : "split";
};

/** Whether the sides reach the listeners reversed: as they lie in the inputs, else as they are meant to be patched. */
export const isSwapped = (setup: Pick<Setup, "monitor">, bus: Bus): boolean => {
  const order = pairOrder(setup.monitor, bus);
  return order === "normal" ? false : order === "swapped" ? true : bus.swapped;
};

/** What the input of each side makes of it; a mono bus has one input for both. */
const ofInputs = <T>(
  monitor: MonitorSystem,
  bus: Bus,
  make: (input: MonitorInput | null | undefined) => T,
): Sides<T> => {
  const of = (side: Side): T => make(monitor.inputs[inputOfSide(monitor, bus, side)]);
  return [of("left"), of(bus.stereo ? "right" : "left")];
};

/** Trim of the input that takes each side, dB; 0 for a side without an input. */
export const inputTrims = (monitor: MonitorSystem, bus: Bus): Sides<Db> =>
  ofInputs(monitor, bus, (s) => s?.trim ?? 0);

/** Whether the input of each side is switched off; a side without an input is not. */
export const sidesOff = (monitor: MonitorSystem, bus: Bus): Sides<boolean> =>
  ofInputs(monitor, bus, (s) => s?.on === false);

/** Gain of the input that takes each side: 0 where it is off, 1 for a side without an input. */
export const inputGains = (monitor: MonitorSystem, bus: Bus): Sides<Gain> =>
  ofInputs(monitor, bus, (s) => (s?.on === false ? 0 : gainOf(s?.trim ?? 0)));

/** Whether each side has an input, so that they can change places. */
export const hasBothInputs = (monitor: MonitorSystem, bus: Bus): boolean =>
  inputOfSide(monitor, bus, "left") >= 0 && inputOfSide(monitor, bus, "right") >= 0;

const otherSide = (input: MonitorInput | null, bus: Id): MonitorInput | null =>
  input?.feed.kind === "bus" && input.feed.bus === bus
    ? { ...input, feed: { ...input.feed, side: input.feed.side === "left" ? "right" : "left" } }
    : input;

/** The inputs with the sides of a pair the other way round: each input keeps its trim and switch. */
export const withSidesExchanged = (monitor: MonitorSystem, bus: Bus): MonitorSystem => ({
  ...monitor,
  inputs: monitor.inputs.map((input) => otherSide(input, bus.id)),
});

/** The setup with a pair swapped: its sides change inputs, where both have one, and the plan says so. */
export const withBusSwapped = <T extends Pick<Setup, "buses" | "monitor">>(setup: T, bus: Bus): T => {
  const { monitor } = setup;
  const swapped = !isSwapped(setup, bus);
  return {
    ...withBus(setup, bus.id, (s) => ({ ...s, swapped })),
    monitor: hasBothInputs(monitor, bus) ? withSidesExchanged(monitor, bus) : monitor,
  };
};
