import { fittingTap } from "../inputs/taps";
import { busesFed } from "../inputs/usage";
import { BLANK_INPUT } from "../model/defaults";
import { hearsFoh } from "../model/kinds";
import type { Channel, DirectOut, Feed, Id, Listener, MonitorInput, Setup } from "../model/setup";
import { linesOf, sidesOf } from "../model/sides";
import { type Carried, carriedBy } from "./carried";
import type { AllocationProblem, BusOf } from "./model";
import type { AllocationPlan, PlanFeed } from "./plans";

const sameFeed = (a: Feed, b: Feed): boolean => JSON.stringify(a) === JSON.stringify(b);

/** What a feed of the plan puts into its inputs, in their order. */
const intoInputs = (setup: Setup, carried: readonly Carried[], feed: PlanFeed): Feed[] => {
  const bus = carried.find((c) => c.feed === feed)?.bus;
  if (bus) {
    const sides = sidesOf(bus).map((side): Feed => ({ kind: "bus", bus: bus.id, side }));
    return bus.swapped ? sides.reverse() : sides;
  }
  const channel = setup.channels.find(({ id }) => id === feed.channels[0]);
  if (!channel) return [];
  const sides = feed.width === 2 ? linesOf(channel) : (["both"] as const);
  return sides.map((side) => ({ kind: "channel", channel: channel.id, side }));
};

/** Every input that takes something has a port: its own, else the first that no other has, as far as the desk has any. */
const withPorts = (
  { portCount }: Setup["desk"],
  inputs: readonly (MonitorInput | null)[],
): (MonitorInput | null)[] => {
  const taken = new Set(inputs.flatMap((input) => input?.port ?? []));
  let next = 1;
  return inputs.map((input) => {
    if (!input || input.port !== null) return input;
    while (taken.has(next)) next += 1;
    if (next > portCount) return input;
    taken.add(next);
    return { ...input, port: next };
  });
};

/** The inputs of the plan: ports stay with the inputs, trims go with what is fed. */
const plannedInputs = (
  setup: Setup,
  plan: AllocationPlan,
  carried: readonly Carried[],
): (MonitorInput | null)[] => {
  const { inputs, inputCount } = setup.monitor;
  const planned: (MonitorInput | null)[] = Array.from({ length: inputCount }, () => null);
  for (const feed of plan.feeds)
    for (const [i, what] of intoInputs(setup, carried, feed).entries()) {
      const index = (feed.inputs[i] ?? 0) - 1;
      const trim = inputs.find((input) => input && sameFeed(input.feed, what))?.trim ?? BLANK_INPUT.trim;
      planned[index] = { ...BLANK_INPUT, feed: what, trim, port: inputs[index]?.port ?? null };
    }
  return withPorts(setup.desk, planned);
};

/** On where it has inputs of its own, taken where its rule says or it fits such a channel; else off. */
const directOutOf = ({ kind, directOut, rule }: Channel, isOwn: boolean): DirectOut => {
  if (!isOwn) return { ...directOut, on: false };
  return { ...directOut, on: true, tap: rule?.tap ?? fittingTap(kind, directOut.tap) };
};

/** The bus in which most of these channels sound, the first of equals; null where none does. */
const mostOf = (channels: readonly Id[], carried: readonly Carried[]): Id | null => {
  const held = carried.map(({ feed, bus }) => ({
    bus: bus.id,
    count: feed.channels.filter((id) => channels.includes(id)).length,
  }));
  const [most] = held.filter(({ count }) => count > 0).sort((a, b) => b.count - a.count);
  return most?.bus ?? null;
};

/**
 * Which bus a listener hears from now on. One that is not fed any longer gives way to the one that took up most of it;
 * where there was none to hear at all, everybody hears the kit.
 */
const heardBy = (setup: Setup, carried: readonly Carried[], listener: Listener): Id | null => {
  if (hearsFoh(listener)) return listener.bus;
  if (carried.some(({ bus }) => bus.id === listener.bus)) return listener.bus;
  const before = setup.buses.find(({ id }) => id === listener.bus);
  if (before)
    return mostOf(
      before.sends.flatMap((send) => (send.on ? [send.channel] : [])),
      carried,
    );
  if (busesFed(setup).length > 0) return null;
  return carried.find(({ feed }) => feed.bus?.family === "drums")?.bus.id ?? null;
};

/**
 * A setup as a plan has it: buses made or kept with their sends, direct outs switched, inputs filled. Buses that the plan
 * does not need stay, unpatched.
 * @param problem what the plan answers
 * @param nameOf names a bus that has to be made
 */
export const applyPlan = (
  setup: Setup,
  problem: AllocationProblem,
  plan: AllocationPlan,
  nameOf: (bus: BusOf) => string,
): Setup => {
  const carried = carriedBy(setup, problem, plan, nameOf);
  const own = new Set(plan.feeds.flatMap((feed) => (feed.bus ? [] : feed.channels)));
  const planned = new Map(carried.map(({ bus }) => [bus.id, bus]));
  const made = carried.map(({ bus }) => bus).filter(({ id }) => !setup.buses.some((b) => b.id === id));
  return {
    ...setup,
    channels: setup.channels.map((c) => ({ ...c, directOut: directOutOf(c, own.has(c.id)) })),
    buses: [...setup.buses.map((bus) => planned.get(bus.id) ?? bus), ...made],
    listeners: setup.listeners.map((l) => ({ ...l, bus: heardBy(setup, carried, l) })),
    monitor: { ...setup.monitor, inputs: plannedInputs(setup, plan, carried) },
  };
};
