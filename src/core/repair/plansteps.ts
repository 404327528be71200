import { remembered } from "../lib/memo";
import { inputTrims, sidesOff } from "../mix/pair-order";
import { nextId, uniqueName } from "../model/ids";
import type { Bus, Id, Listener, Send, Setup } from "../model/setup";
import type { Pan } from "../model/units";
import { listenerName } from "../names";
import type { Over } from "./hearing";
import type { Option, PairOptions } from "./options";
import type { Plan } from "./search";
import type { Situation } from "./situation";
import { inputsSwapped, type PanMove, roomForPair, type Step, withStep } from "./steps";

const movesFor = ({ voices }: Situation, over: Over | null): PanMove[] =>
  voices
    .filter((_, at) => over?.[at])
    .map((v) => ({
      channel: v.channel.id,
      from: v.pan,
      to: v.over.pan,
      followed: v.send.pan === null,
      error: v.over.error,
    }));

const fohMoves = ({ voices }: Situation, over: Over | null): PanMove[] =>
  voices
    .filter((_, at) => over?.[at])
    .map(({ channel, fohOver }) => ({
      channel: channel.id,
      from: channel.pan,
      to: fohOver.pan,
      followed: false,
      error: fohOver.error,
    }));

/** The sends of a copy that stays as the bus is now: channel pans about to be moved are written down, then what it needs. */
const copiedSends = (
  { bus, voices }: Situation,
  foh: Over | null,
  pans: readonly PanMove[],
): readonly Send[] => {
  const fixed = new Map<Id, Pan>([
    ...voices.filter((_, at) => foh?.[at]).map((v) => [v.channel.id, v.pan] as const),
    ...pans.map((p) => [p.channel, p.to] as const),
  ]);
  return bus.sends.map((s) => ({ ...s, pan: fixed.get(s.channel) ?? s.pan }));
};

/** A pair for one listener alone; null without room. */
const ownPair = (
  setup: Setup,
  bus: Bus,
  listener: Listener,
  copy: Pick<Bus, "sends" | "swapped">,
  pans: readonly PanMove[],
): Step | null => {
  const room = roomForPair(setup);
  if (!room) return null;
  return {
    step: "own pair",
    listener: listener.id,
    of: bus.id,
    copy: {
      ...bus,
      ...copy,
      id: nextId("m", setup.buses),
      name: uniqueName(`${bus.name || "Sum"} for ${listenerName(listener)}`, setup.buses),
    },
    inputs: copy.swapped ? [room[1], room[0]] : room,
    trims: inputTrims(setup.monitor, bus),
    off: sidesOff(setup.monitor, bus),
    pans,
  };
};

const flip = (listener: Listener): Step => ({
  step: "flip",
  listener: listener.id,
  flipped: !listener.flipped,
});

/** What is done to the pair itself, for everybody who hears it. */
const pairSteps = (situation: Situation, { pair, over, foh }: PairOptions): Step[] => {
  const { setup, bus } = situation;
  const steps: Step[] = [];
  if (pair.swap) steps.push({ step: "swap", bus: bus.id, inputs: inputsSwapped(setup.monitor, bus) });
  if (pair.fold) steps.push({ step: "fold", bus: bus.id });
  if (pair.pan === "bus")
    for (const move of movesFor(situation, over)) steps.push({ step: "pan", bus: bus.id, ...move });
  if (pair.pan === "foh")
    for (const move of fohMoves(situation, foh)) steps.push({ step: "channel pan", ...move });
  return steps;
};

/** Everything a plan asks for, in the order in which it is done. Plans share much: what they share is made once. */
export const stepMaker = (situation: Situation): ((plan: Plan) => Step[]) => {
  const { setup, bus, members, reversed } = situation;
  const forPair = remembered((options: PairOptions) => pairSteps(situation, options));
  const moves = remembered((over: Over | null) => movesFor(situation, over));
  const sends = remembered((foh: Over | null) =>
    remembered((over: Over | null) => copiedSends(situation, foh, moves(over))),
  );
  return ({ options, picks }) => {
    const steps: Step[] = [];
    // Each copy takes inputs from the next one, so the setup goes along.
    let now = setup;
    members.forEach(({ listener }, at) => {
      const { choice, hearing } = picks[at] as Option;
      if (choice === "flip") steps.push(flip(listener));
      if (choice !== "own reversed" && choice !== "own panned") return;
      const copy = {
        sends: sends(options.foh)(hearing.over),
        swapped: reversed !== (hearing.order === "mirror"),
      };
      const step = ownPair(now, bus, listener, copy, moves(hearing.over));
      if (!step) return;
      steps.push(step);
      now = withStep(now, step);
    });
    return [...forPair(options), ...steps];
  };
};
