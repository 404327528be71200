import { called } from "../called";
import { nextId, uniqueName } from "../naming";
import { legsOff, slotTrims } from "../patched";
import { remembered } from "../remember";
import type { Id, Listener, Send, Setup, Sum } from "../setup";
import type { Pan } from "../units";
import type { Over } from "./hearing";
import type { Option, PairOptions } from "./options";
import type { Plan } from "./search";
import type { Situation } from "./situation";
import { type PanMove, roomForPair, type Step, slotsSwapped, withStep } from "./steps";

const movesFor = ({ voices }: Situation, over: Over | null): PanMove[] =>
  voices
    .filter((_, at) => over?.[at])
    .map((v) => ({
      source: v.source.id,
      from: v.pan,
      to: v.over.pan,
      followed: v.send.pan === null,
      error: v.over.error,
    }));

const houseMoves = ({ voices }: Situation, over: Over | null): PanMove[] =>
  voices
    .filter((_, at) => over?.[at])
    .map(({ source, houseOver }) => ({
      source: source.id,
      from: source.pan,
      to: houseOver.pan,
      followed: false,
      error: houseOver.error,
    }));

/** The sends of a copy that stays as the sum is now: house pans about to be moved are written down, then what it needs. */
const copiedSends = (
  { sum, voices }: Situation,
  house: Over | null,
  pans: readonly PanMove[],
): readonly Send[] => {
  const fixed = new Map<Id, Pan>([
    ...voices.filter((_, at) => house?.[at]).map((v) => [v.source.id, v.pan] as const),
    ...pans.map((p) => [p.source, p.to] as const),
  ]);
  return sum.sends.map((s) => ({ ...s, pan: fixed.get(s.source) ?? s.pan }));
};

/** A pair for one listener alone; null without room. */
const ownPair = (
  setup: Setup,
  sum: Sum,
  listener: Listener,
  copy: Pick<Sum, "sends" | "reversed">,
  pans: readonly PanMove[],
): Step | null => {
  const room = roomForPair(setup);
  if (!room) return null;
  return {
    step: "own pair",
    listener: listener.id,
    of: sum.id,
    copy: {
      ...sum,
      ...copy,
      id: nextId("m", setup.sums),
      name: uniqueName(`${sum.name || "Sum"} for ${called(listener)}`, setup.sums),
    },
    slots: copy.reversed ? [room[1], room[0]] : room,
    trims: slotTrims(setup.monitor, sum),
    off: legsOff(setup.monitor, sum),
    pans,
  };
};

const flip = (listener: Listener): Step => ({
  step: "flip",
  listener: listener.id,
  flipped: !listener.flipped,
});

/** What is done to the pair itself, for everybody who hears it. */
const pairSteps = (situation: Situation, { pair, over, house }: PairOptions): Step[] => {
  const { setup, sum } = situation;
  const steps: Step[] = [];
  if (pair.swap) steps.push({ step: "swap", sum: sum.id, slots: slotsSwapped(setup.monitor, sum) });
  if (pair.fold) steps.push({ step: "fold", sum: sum.id });
  if (pair.pan === "sum")
    for (const move of movesFor(situation, over)) steps.push({ step: "pan", sum: sum.id, ...move });
  if (pair.pan === "house")
    for (const move of houseMoves(situation, house)) steps.push({ step: "house pan", ...move });
  return steps;
};

/** Everything a plan asks for, in the order in which it is done. Plans share much: what they share is made once. */
export const stepMaker = (situation: Situation): ((plan: Plan) => Step[]) => {
  const { setup, sum, members, reversed } = situation;
  const forPair = remembered((options: PairOptions) => pairSteps(situation, options));
  const moves = remembered((over: Over | null) => movesFor(situation, over));
  const sends = remembered((house: Over | null) =>
    remembered((over: Over | null) => copiedSends(situation, house, moves(over))),
  );
  return ({ options, picks }) => {
    const steps: Step[] = [];
    // Each copy takes slots from the next one, so the setup goes along.
    let now = setup;
    members.forEach(({ listener }, at) => {
      const { choice, hearing } = picks[at] as Option;
      if (choice === "flip") steps.push(flip(listener));
      if (choice !== "own reversed" && choice !== "own panned") return;
      const copy = {
        sends: sends(options.house)(hearing.over),
        reversed: reversed !== (hearing.order === "mirror"),
      };
      const step = ownPair(now, sum, listener, copy, moves(hearing.over));
      if (!step) return;
      steps.push(step);
      now = withStep(now, step);
    });
    return [...forPair(options), ...steps];
  };
};
