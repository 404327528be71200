import { sumOf } from "../image";
import { partsOf } from "../mix";
import { patchedOrder, slotOfLeg } from "../patched";
import type { Id, Listener, Send, Setup, Sum } from "../setup";
import { type Fault, turned } from "./faults";

const withSum = (setup: Setup, sum: Sum): Setup => ({
  ...setup,
  sums: setup.sums.map((s) => (s.id === sum.id ? sum : s)),
});

const withSend = (setup: Setup, sum: Sum, source: Id | null, change: (send: Send) => Send): Setup =>
  withSum(setup, { ...sum, sends: sum.sends.map((s) => (s.source === source ? change(s) : s)) });

/** The legs the other way round: in the slots if they lie there as neighbours, else in the plan. */
const reversed = (setup: Setup, sum: Sum): Setup => {
  const order = patchedOrder(setup.monitor, sum);
  if (order !== "straight" && order !== "reversed")
    return withSum(setup, { ...sum, reversed: !sum.reversed });
  const left = slotOfLeg(setup.monitor, sum, "left");
  const right = slotOfLeg(setup.monitor, sum, "right");
  const { slots } = setup.monitor;
  const now = slots.map((s, at) => (at === left ? slots[right] : at === right ? slots[left] : s) ?? null);
  return { ...setup, monitor: { ...setup.monitor, slots: now } };
};

/**
 * The setup as it was found to be, so that image and patch agree with reality.
 * A missing source is put in as its send being off: the house is not touched.
 * @returns null where a setup has no words for the fault (a dead ear, a lost leg, wrong slots chosen at the listener's
 * mixer), or the listener hears no sum
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
      return withSum(setup, { ...sum, folded: true });
    case "inverted": {
      const [left, right] = sum.legInverted;
      return withSum(setup, { ...sum, legInverted: [left, !right] });
    }
    case "all at centre":
      return withSum(setup, { ...sum, sends: sum.sends.map((s) => ({ ...s, pan: 0 })) });
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
