import { sumOf } from "../ears";
import { legsOf } from "../legs";
import { partsOf } from "../mix";
import { legsOff, patchedOrder, slotOfLeg, withLegsExchanged } from "../patched";
import type { Id, Listener, Send, Setup, Sum } from "../setup";
import type { Side } from "../units";
import { withSum } from "../withsum";
import { type Fault, turned } from "./faults";

const put = (setup: Setup, sum: Sum): Setup => withSum(setup, sum.id, () => sum);

const withSend = (setup: Setup, sum: Sum, source: Id | null, change: (send: Send) => Send): Setup =>
  put(setup, { ...sum, sends: sum.sends.map((s) => (s.source === source ? change(s) : s)) });

/** The legs the other way round: in the slots if they lie there as neighbours, else in the plan. */
const reversed = (setup: Setup, sum: Sum): Setup => {
  const order = patchedOrder(setup.monitor, sum);
  if (order !== "straight" && order !== "reversed") return put(setup, { ...sum, reversed: !sum.reversed });
  return { ...setup, monitor: withLegsExchanged(setup.monitor, sum) };
};

/** Every slot of some legs switched; null when one of them has no slot to switch. */
const switched = (setup: Setup, sum: Sum, legs: readonly Side[], on: boolean): Setup | null => {
  if (legs.some((leg) => slotOfLeg(setup.monitor, sum, leg) < 0)) return null;
  const slots = setup.monitor.slots.map((slot) =>
    slot?.feed.kind === "leg" && slot.feed.sum === sum.id && legs.includes(slot.feed.leg)
      ? { ...slot, on }
      : slot,
  );
  return { ...setup, monitor: { ...setup.monitor, slots } };
};

/**
 * The setup as it was found to be, so that image and patch agree with reality.
 * A missing source is put in as its send being off: the house is not touched.
 * A leg that does not arrive is put in as its slot being off.
 * @returns null where a setup has no words for the fault (a dead ear, one leg in both ears, wrong slots chosen at the
 * listener's mixer, a lost leg that has no slot), or the listener hears no sum
 */
export const putIntoSetup = (setup: Setup, listener: Listener, fault: Fault): Setup | null => {
  const sum = sumOf(setup, listener);
  if (!sum) return null;
  switch (fault.kind) {
    case "planned":
      return setup;
    case "reversed":
      return reversed(setup, sum);
    case "flipped":
      return {
        ...setup,
        listeners: setup.listeners.map((l) => (l.id === listener.id ? { ...l, flipped: !l.flipped } : l)),
      };
    case "folded":
      return put(setup, { ...sum, folded: true });
    case "inverted": {
      const [left, right] = sum.legInverted;
      return put(setup, { ...sum, legInverted: [left, !right] });
    }
    case "left leg only":
      return switched(setup, sum, ["right"], false);
    case "right leg only":
      return switched(setup, sum, ["left"], false);
    case "silent":
      return switched(setup, sum, legsOf(sum), false);
    case "switched on": {
      const off = legsOff(setup.monitor, sum);
      return switched(
        setup,
        sum,
        legsOf(sum).filter((_, at) => off[at]),
        true,
      );
    }
    case "all at centre":
      return put(setup, { ...sum, sends: sum.sends.map((s) => ({ ...s, pan: 0 })) });
    case "source wrong": {
      const part = partsOf(setup, sum).find((p) => p.source.id === fault.source);
      return part ? withSend(setup, sum, fault.source, () => turned(part)) : null;
    }
    case "source missing":
      return withSend(setup, sum, fault.source, (send) => ({ ...send, level: null }));
    default:
      return null;
  }
};
