import { mixedChannelsOf } from "../mix/bus";
import { busOf } from "../mix/ear-gains";
import { inputOfSide, pairOrder, sidesOff, withSidesExchanged } from "../mix/pair-order";
import type { Bus, Id, Listener, Send, Setup } from "../model/setup";
import { sidesOf } from "../model/sides";
import type { Side } from "../model/units";
import { withBus } from "../model/update";
import { type Fault, turned } from "./faults";

const put = (setup: Setup, bus: Bus): Setup => withBus(setup, bus.id, () => bus);

const withSend = (setup: Setup, bus: Bus, channel: Id | null, change: (send: Send) => Send): Setup =>
  put(setup, { ...bus, sends: bus.sends.map((s) => (s.channel === channel ? change(s) : s)) });

/** The sides the other way round: in the inputs if they lie there as neighbours, else in the plan. */
const reversed = (setup: Setup, bus: Bus): Setup => {
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

/**
 * The setup as it was found to be, so that image and patch agree with reality.
 * A missing channel is put in as its send being off: FOH is not touched.
 * A side that does not arrive is put in as its input being off.
 * @returns null where a setup has no words for the fault (a dead ear, one side in both ears, wrong inputs chosen at the
 * listener's mixer, a lost side that has no input), or the listener hears no bus
 */
export const putIntoSetup = (setup: Setup, listener: Listener, fault: Fault): Setup | null => {
  const bus = busOf(setup, listener);
  if (!bus) return null;
  switch (fault.kind) {
    case "planned":
      return setup;
    case "reversed":
      return reversed(setup, bus);
    case "flipped":
      return {
        ...setup,
        listeners: setup.listeners.map((l) => (l.id === listener.id ? { ...l, flipped: !l.flipped } : l)),
      };
    case "folded":
      return put(setup, { ...bus, folded: true });
    case "inverted": {
      const [left, right] = bus.sideInverted;
      return put(setup, { ...bus, sideInverted: [left, !right] });
    }
    case "left side only":
      return switched(setup, bus, ["right"], false);
    case "right side only":
      return switched(setup, bus, ["left"], false);
    case "silent":
      return switched(setup, bus, sidesOf(bus), false);
    case "switched on": {
      const off = sidesOff(setup.monitor, bus);
      return switched(
        setup,
        bus,
        sidesOf(bus).filter((_, at) => off[at]),
        true,
      );
    }
    case "all at centre":
      return put(setup, { ...bus, sends: bus.sends.map((s) => ({ ...s, pan: 0 })) });
    case "channel wrong": {
      const part = mixedChannelsOf(setup, bus).find((p) => p.channel.id === fault.channel);
      return part ? withSend(setup, bus, fault.channel, () => turned(part)) : null;
    }
    case "channel missing":
      return withSend(setup, bus, fault.channel, (send) => ({ ...send, level: null }));
    default:
      return null;
  }
};
