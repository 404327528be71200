import { BLANK_BUS, BLANK_SEND } from "../model/defaults";
import { nextId, uniqueName } from "../model/ids";
import type { Bus, Channel, Id, Send, Setup } from "../model/setup";
import { ruleOf } from "./items";
import type { AllocationProblem, BusOf } from "./model";
import { busesNow } from "./now";
import type { AllocationPlan, PlanFeed } from "./plans";

/** A feed of a plan with the bus that carries it. */
export interface Carried {
  readonly feed: PlanFeed;
  readonly bus: Bus;
}

/**
 * A send that brings something keeps its level, and its tap unless the user said where it is taken; any other begins at
 * 0 dB where the rule takes it.
 */
const sendOf = (problem: AllocationProblem, channel: Channel, now: Send | undefined): Send => {
  const passes = now?.on && now.level !== null && (now.tap === "pre-fader" || channel.fader !== null);
  const asked = problem.channels.find(({ id }) => id === channel.id);
  if (passes && (asked?.rule.send ?? now.tap) === now.tap) return now;
  // Behind a fader at −∞ nothing would come.
  const tap = asked && channel.fader !== null ? ruleOf(asked).send : "pre-fader";
  return { ...BLANK_SEND, ...now, channel: channel.id, on: true, level: now?.level ?? BLANK_SEND.level, tap };
};

/** A bus as a plan has it: exactly its channels sound in it. */
const asPlanned = (setup: Setup, problem: AllocationProblem, bus: Bus, feed: PlanFeed): Bus => {
  const stereo = feed.width === 2;
  const goesIn = (id: Id): boolean => feed.channels.includes(id);
  const off = bus.sends.filter(({ channel }) => !goesIn(channel)).map((send) => ({ ...send, on: false }));
  const on = setup.channels
    .filter(({ id }) => goesIn(id))
    .map((channel) =>
      sendOf(
        problem,
        channel,
        bus.sends.find((send) => send.channel === channel.id),
      ),
    );
  return {
    ...bus,
    stereo,
    numbers: stereo ? bus.numbers : bus.numbers.slice(0, 1),
    swapped: feed.isSwapped,
    folded: false,
    fader: bus.fader ?? BLANK_BUS.fader,
    sends: [...on, ...off],
  };
};

/** The buses of the plan: those that there are by what they hold together, and new ones. */
export const carriedBy = (
  setup: Setup,
  problem: AllocationProblem,
  plan: AllocationPlan,
  nameOf: (bus: BusOf) => string,
): Carried[] => {
  const now = busesNow(setup, problem.channels);
  const made: Bus[] = [...setup.buses];
  return plan.feeds.flatMap((feed) => {
    if (!feed.bus) return [];
    const kept = now.get(feed.bus.id);
    const begun = (name: string): Bus => ({
      ...BLANK_BUS,
      id: nextId("m", made),
      name: uniqueName(name, made),
      stereo: false,
    });
    const bus = asPlanned(setup, problem, kept ?? begun(nameOf(feed.bus)), feed);
    if (!kept) made.push(bus);
    return [{ feed, bus }];
  });
};
