import { type MixedChannel, mixedChannelsOf } from "../mix/bus";
import { busOf } from "../mix/ear-gains";
import { inputOfSide, pairOrder, sidesOff, withSidesExchanged } from "../mix/pair-order";
import type { Bus, Id, Listener, Setup } from "../model/setup";
import { sidesOf } from "../model/sides";
import type { Side } from "../model/units";
import { withBus } from "../model/update";
import type { Fault } from "./faults";
import type { Hypothesis } from "./hypotheses";
import { isOverhead, turned } from "./paths";

const put = (setup: Setup, bus: Bus): Setup => withBus(setup, bus.id, () => bus);

/** L/R the other way round: in the inputs if they lie there as neighbours, else in the plan. */
const swapped = (setup: Setup, bus: Bus): Setup => {
  const order = pairOrder(setup.monitor, bus);
  if (order !== "normal" && order !== "swapped") return put(setup, { ...bus, swapped: !bus.swapped });
  return { ...setup, monitor: withSidesExchanged(setup.monitor, bus) };
};

/** Every input of some sides switched; null when one of them has no input to switch. */
const switched = (setup: Setup, bus: Bus, sides: readonly Side[], on: boolean): Setup | null => {
  if (sides.some((side) => inputOfSide(setup.monitor, bus, side) < 0)) return null;
  const inputs = setup.monitor.inputs.map((input) =>
    input?.feed.kind === "bus" && input.feed.bus === bus.id && sides.includes(input.feed.side)
      ? { ...input, on }
      : input,
  );
  return { ...setup, monitor: { ...setup.monitor, inputs } };
};

/** A change of the plan that says a fault; null where a plan has no words for it here. */
type Recording = (setup: Setup, bus: Bus, listener: Listener, channel: Id | null) => Setup | null;

const unsayable: Recording = () => null;

const turnedSends = (setup: Setup, bus: Bus, turns: (part: MixedChannel) => boolean): Setup => {
  const turnedParts = new Map(
    mixedChannelsOf(setup, bus)
      .filter(turns)
      .map((part) => [part.send, turned(part)]),
  );
  return put(setup, { ...bus, sends: bus.sends.map((send) => turnedParts.get(send) ?? send) });
};

/** The one table of what a fault is in a plan. */
const RECORDED: Readonly<Record<Fault, Recording>> = {
  planned: (setup) => setup,
  swapped,
  flipped: (setup, _, listener) => ({
    ...setup,
    listeners: setup.listeners.map((l) => (l.id === listener.id ? { ...l, flipped: !l.flipped } : l)),
  }),
  "ears-swapped": unsayable,
  "left-only": (setup, bus) => switched(setup, bus, ["right"], false),
  "right-only": (setup, bus) => switched(setup, bus, ["left"], false),
  "left-in-both": unsayable,
  "right-in-both": unsayable,
  folded: (setup, bus) => put(setup, { ...bus, folded: true }),
  "left-ear-dead": unsayable,
  "right-ear-dead": unsayable,
  inverted: (setup, bus) => put(setup, { ...bus, sideInverted: [bus.sideInverted[0], !bus.sideInverted[1]] }),
  "inputs-up": unsayable,
  "inputs-down": unsayable,
  "all-centred": (setup, bus) => put(setup, { ...bus, sends: bus.sends.map((s) => ({ ...s, pan: 0 })) }),
  silent: (setup, bus) => switched(setup, bus, sidesOf(bus), false),
  "switched-on": (setup, bus) => {
    const off = sidesOff(setup.monitor, bus);
    return switched(
      setup,
      bus,
      sidesOf(bus).filter((_, at) => off[at]),
      true,
    );
  },
  "overheads-crossed": (setup, bus) => turnedSends(setup, bus, (part) => isOverhead(setup, part)),
  "wrong-side": (setup, bus, _, channel) => turnedSends(setup, bus, (part) => part.channel.id === channel),
  missing: (setup, bus, _, channel) =>
    put(setup, {
      ...bus,
      sends: bus.sends.map((send) => (send.channel === channel ? { ...send, level: null } : send)),
    }),
};

/**
 * The setup as it was found to be, so that image and patch agree with reality: the plan changes, the desk does not.
 * A missing channel is recorded as its send being off: FOH is not touched. A side that does not arrive is recorded as
 * its monitor input being off.
 * @returns null where a setup has no words for the fault (a dead ear, swapped ears, one side in both ears, wrong inputs
 * chosen at the listener's mixer, a lost side that has no monitor input), or the listener hears no bus
 */
export const recordAsFound = (
  setup: Setup,
  listener: Listener,
  { fault, channel }: Pick<Hypothesis, "fault" | "channel">,
): Setup | null => {
  const bus = busOf(setup, listener);
  return bus ? RECORDED[fault](setup, bus, listener, channel) : null;
};
