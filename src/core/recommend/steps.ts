import { firstFree, usageOf } from "../inputs/usage";
import { hasBothInputs, inputOfSide, withBusSwapped } from "../mix/pair-order";
import { BLANK_INPUT } from "../model/defaults";
import type { Bus, MonitorInput, MonitorSystem, Setup } from "../model/setup";
import type { Sides } from "../model/units";
import { withBus } from "../model/update";
import type { Recommendation, Step } from "./model";

/** The monitor inputs of L and R once a bus is swapped; null where one of them has none. */
export const inputsSwapped = (monitor: MonitorSystem, bus: Bus): Sides<number> | null => {
  if (!hasBothInputs(monitor, bus)) return null;
  return [inputOfSide(monitor, bus, "right"), inputOfSide(monitor, bus, "left")];
};

/** Two free monitor inputs: neighbours where there are any. Null without room. */
export const roomForBus = (setup: Setup): Sides<number> | null => {
  const [first, second] = firstFree(setup.monitor, 2) ?? usageOf(setup).free;
  return first === undefined || second === undefined ? null : [first, second];
};

const withOwnBus = (setup: Setup, step: Step & { readonly step: "own bus" }): Setup => {
  const side = (at: 0 | 1): MonitorInput => ({
    ...BLANK_INPUT,
    feed: { kind: "bus", bus: step.copy.id, side: at === 0 ? "left" : "right" },
    on: !step.off[at],
    trim: step.trims[at],
  });
  const length = Math.max(setup.monitor.inputs.length, step.inputs[0] + 1, step.inputs[1] + 1);
  const inputs = Array.from({ length }, (_, i) => setup.monitor.inputs[i] ?? null);
  inputs[step.inputs[0]] = side(0);
  inputs[step.inputs[1]] = side(1);
  const at = setup.buses.findIndex((s) => s.id === step.of) + 1;
  return {
    ...setup,
    buses: [...setup.buses.slice(0, at), step.copy, ...setup.buses.slice(at)],
    listeners: setup.listeners.map((l) => (l.id === step.listener ? { ...l, bus: step.copy.id } : l)),
    monitor: { ...setup.monitor, inputs },
  };
};

/** The setup with one step done. */
export const withStep = (setup: Setup, step: Step): Setup => {
  switch (step.step) {
    case "swap": {
      const bus = setup.buses.find((s) => s.id === step.bus);
      return bus ? withBusSwapped(setup, bus) : setup;
    }
    case "fold":
      return withBus(setup, step.bus, (bus) => ({ ...bus, folded: true }));
    case "pan":
      return withBus(setup, step.bus, (bus) => ({
        ...bus,
        sends: bus.sends.map((s) => (s.channel === step.channel ? { ...s, pan: step.to } : s)),
      }));
    case "channel pan":
      return {
        ...setup,
        channels: setup.channels.map((s) => (s.id === step.channel ? { ...s, pan: step.to } : s)),
      };
    case "flip":
      return {
        ...setup,
        listeners: setup.listeners.map((l) => (l.id === step.listener ? { ...l, flipped: step.flipped } : l)),
      };
    case "own bus":
      return withOwnBus(setup, step);
  }
};

/** The setup with a recommendation applied. */
export const applyRecommendation = (setup: Setup, { steps }: Pick<Recommendation, "steps">): Setup =>
  steps.reduce(withStep, setup);
