import { firstFree, usageOf } from "../inputs/usage";
import { hasBothInputs, inputOfSide, withBusSwapped } from "../mix/pair-order";
import type { Bus, Id, MonitorInput, MonitorSystem, Setup } from "../model/setup";
import type { Db, Pan, Sides } from "../model/units";
import { withBus } from "../model/update";

/** A pan that is set. */
export interface PanMove {
  readonly channel: Id;
  readonly from: Pan;
  /** On the console's steps. */
  readonly to: Pan;
  /** It followed the channel pan before. */
  readonly followed: boolean;
  /** What rounding to the console's steps costs, dB. */
  readonly error: Db;
}

/** One thing to do. */
export type Step =
  /** The sides change places; `inputs` are those of the left and right side afterwards, null when they have none. */
  | { readonly step: "swap"; readonly bus: Id; readonly inputs: Sides<number> | null }
  | { readonly step: "fold"; readonly bus: Id }
  | ({ readonly step: "pan"; readonly bus: Id } & PanMove)
  | ({ readonly step: "channel pan" } & PanMove)
  | { readonly step: "flip"; readonly listener: Id; readonly flipped: boolean }
  /** A copy of a sum for one listener alone, with the slots of its left and right leg and what is panned in it. */
  | {
      readonly step: "own pair";
      readonly listener: Id;
      readonly of: Id;
      readonly copy: Bus;
      readonly inputs: Sides<number>;
      readonly trims: Sides<Db>;
      readonly off: Sides<boolean>;
      readonly pans: readonly PanMove[];
    };

/** Where the sides of a pair lie once it is swapped; null where one of them has no input. */
export const inputsSwapped = (monitor: MonitorSystem, bus: Bus): Sides<number> | null => {
  if (!hasBothInputs(monitor, bus)) return null;
  return [inputOfSide(monitor, bus, "right"), inputOfSide(monitor, bus, "left")];
};

/** Two free inputs: neighbours where there are any. Null without room. */
export const roomForPair = (setup: Setup): Sides<number> | null => {
  const [first, second] = firstFree(setup.monitor, 2) ?? usageOf(setup).free;
  return first === undefined || second === undefined ? null : [first, second];
};

const withOwnPair = (setup: Setup, step: Step & { readonly step: "own pair" }): Setup => {
  const side = (at: 0 | 1): MonitorInput => ({
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
    case "own pair":
      return withOwnPair(setup, step);
  }
};
