import { patchedThings, repeatsOf } from "../inputs/patched";
import { inputsOfBus } from "../model/inputs";
import type { Bus, Id, Setup } from "../model/setup";
import type { AllocationChannel, AllocationProblem, BusOf, Width } from "./model";
import { busesNow } from "./now";
import type { AllocationPlan, PlanFeed } from "./plans";

/** One thing to do so that inputs come free. */
export type FreeingMove =
  /** Inputs, indexes from 0, that bring nothing which does not come in by others. */
  | { readonly move: "free"; readonly inputs: readonly number[] }
  /** A channel that stays where it is and comes in by a bus as well, where it is switched off. */
  | { readonly move: "leave"; readonly channel: Id; readonly bus: Id }
  /** A stereo channel or bus goes to mono. */
  | { readonly move: "fold"; readonly of: "channel" | "bus"; readonly id: Id }
  /** Channels go into a bus that there is. */
  | { readonly move: "into"; readonly channels: readonly Id[]; readonly bus: Id }
  /** Channels go into a bus that has to be made. */
  | {
      readonly move: "together";
      readonly channels: readonly Id[];
      readonly bus: BusOf;
      readonly width: Width;
    }
  /** A channel comes in by itself that did not. */
  | { readonly move: "apart"; readonly channel: Id }
  | { readonly move: "out"; readonly channel: Id };

const isSentNow = (setup: Setup, bus: Bus, channel: Id): boolean =>
  inputsOfBus(setup.monitor, bus.id).length > 0 &&
  bus.sends.some((send) => send.on && send.channel === channel);

/** What has to be done so that a setup is as a plan of one of the ways to free inputs has it, in the order of the inputs. */
export const freeingMoves = (
  setup: Setup,
  problem: AllocationProblem,
  plan: AllocationPlan,
): FreeingMove[] => {
  const now = busesNow(setup, problem.channels);
  const channelOf = (id: Id) => problem.channels.find((c) => c.id === id);
  const currentOf = (id: Id): AllocationChannel["current"] => channelOf(id)?.current ?? null;
  const keptOf = ({ bus }: PlanFeed): Bus | null => (bus && now.get(bus.id)) ?? null;

  const leaving = (id: Id, at: PlanFeed): FreeingMove[] =>
    plan.feeds.flatMap((other): FreeingMove[] => {
      const bus = keptOf(other);
      return bus && other !== at && isSentNow(setup, bus, id)
        ? [{ move: "leave", channel: id, bus: bus.id }]
        : [];
    });
  const alone = (feed: PlanFeed): FreeingMove[] => {
    const [id = ""] = feed.channels;
    const current = currentOf(id);
    if (current?.as !== "own") return [{ move: "apart", channel: id }];
    const folds = feed.width < current.width;
    return [...(folds ? [{ move: "fold", of: "channel", id } as const] : []), ...leaving(id, feed)];
  };
  const together = (feed: PlanFeed, bus: BusOf): FreeingMove[] => {
    const kept = keptOf(feed);
    const comesBy = (id: Id) => {
      const current = currentOf(id);
      return current?.as === "bus" && current.bus === bus.id ? current : null;
    };
    const channels = feed.channels.filter((id) => !comesBy(id));
    const folds = feed.channels.some((id) => (comesBy(id)?.width ?? 0) > feed.width);
    return [
      ...(kept && folds ? [{ move: "fold", of: "bus", id: kept.id } as const] : []),
      ...(channels.length === 0
        ? []
        : [
            kept
              ? ({ move: "into", channels, bus: kept.id } as const)
              : ({ move: "together", channels, bus, width: feed.width } as const),
          ]),
      ...feed.channels.filter(comesBy).flatMap((id) => leaving(id, feed)),
    ];
  };
  const kept = plan.feeds.flatMap((feed) => keptOf(feed) ?? []);
  /** Whether somebody hears something by a bus that comes in by nothing else, or will. */
  const isNeeded = (bus: Bus): boolean =>
    kept.includes(bus) ||
    problem.channels.some(
      ({ id, current }) =>
        isSentNow(setup, bus, id) &&
        (current === null || (current.as === "bus" && now.get(current.bus) === bus)),
    );
  const idle = patchedThings(setup)
    .flatMap((thing) => {
      const bus = thing.kind === "bus" ? setup.buses.find(({ id }) => id === thing.id) : null;
      return bus && !isNeeded(bus) ? thing.inputs : repeatsOf(setup, thing).map(({ index }) => index);
    })
    .sort((a, b) => a - b);
  return [
    ...(idle.length > 0 ? [{ move: "free", inputs: idle } as const] : []),
    ...plan.feeds.flatMap((feed) => (feed.bus ? together(feed, feed.bus) : alone(feed))),
    ...plan.leftOut
      .filter((id) => (channelOf(id)?.currentInputs.length ?? 0) > 0)
      .map((channel): FreeingMove => ({ move: "out", channel })),
  ];
};
