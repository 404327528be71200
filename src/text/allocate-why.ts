import { type Contradiction, MUSTS, type Wish } from "../core/allocate/contradict";
import type { PlanLoss } from "../core/allocate/explain";
import type { LossCode } from "../core/allocate/losses";
import { type AllocationProblem, type BusPin, busOfId, type Pin } from "../core/allocate/model";
import type { Allocation } from "../core/allocate/plans";
import { inputsFrom } from "../core/allocate/space";
import type { PlanWhatIf, WhatIfCode } from "../core/allocate/whatif";
import type { Id } from "../core/model/setup";
import { allocatedBusName, describePlanLosses, few, inputsName, namesIn, PLAN_STYLES } from "./allocate";
import { type Statement, tickUnless } from "./statement";
import { capitalised, formatCount, formatList } from "./words";

const pinText = (name: string, pin: Pin): string => {
  if (pin.as === "shared") return `${name} pinned to the bus of its family`;
  if (pin.as === "fold-back") return `${name} pinned to the fold-back`;
  if (pin.as === "out") return `${name} pinned as left out`;
  if (pin.input !== null) return `${name} pinned to ${inputsName(inputsFrom(pin.input, pin.width))}`;
  return `${name} pinned to ${pin.width === 2 ? "a stereo pair" : "an input"} of its own`;
};

const busPinText = ({ bus, width, input }: BusPin): string => {
  const at = input === null ? "" : ` to ${inputsName(inputsFrom(input, width))}`;
  return `${allocatedBusName(busOfId(bus))} pinned${at} in ${width === 2 ? "stereo" : "mono"}`;
};

type Ruled = Wish & { readonly by: "rule" };
const RULED: readonly (readonly [asks: (wish: Ruled) => boolean, alone: string, many: string])[] = [
  [(w) => w.own && w.stereo, "must be separate in stereo", "stereo channels that must be separate"],
  [(w) => w.own && !w.stereo, "must have an input of its own", "channels that must have inputs of their own"],
  [(w) => !w.own && w.stereo, "must be in stereo", "channels that must be in stereo"],
  [(w) => !w.own && !w.stereo, "must be heard", "channels that must be heard"],
];

/** Rules that ask for the same are counted together. */
const wishesText = (named: (id: Id) => string, wishes: readonly Wish[]): string => {
  const ruled = wishes.filter((w) => w.by === "rule");
  return formatList([
    ...wishes.flatMap((w) => {
      if (w.by === "pin") return [pinText(named(w.channel), w.pin)];
      return w.by === "bus-pin" ? [busPinText(w.pin)] : [];
    }),
    ...RULED.flatMap(([asks, alone, many]) => {
      const names = ruled.filter(asks).map((w) => named(w.channel));
      if (names.length < 2) return names.map((name) => `${name} (${alone})`);
      return [`${names.length} ${many} (${few(names)})`];
    }),
  ]);
};

/** Why a wish is impossible by itself, where that can be told from the wish. */
const reasonText = (wish: Wish): string => {
  if (wish.by === "rule") return "";
  const { pin } = wish;
  if (!("as" in pin) || pin.as === "own")
    return pin.width === 2 && pin.input !== null && pin.input % 2 === 0
      ? " Stereo starts on an odd input."
      : "";
  return pin.as === "out" ? "" : " It may not share that input.";
};

/** Why not everything can be had: what contradicts what, and what it would take. */
export const describeContradiction = (
  problem: AllocationProblem,
  { wishes, needs }: Contradiction,
): string => {
  const said = capitalised(wishesText(namesIn(problem), wishes));
  const isOne = wishes.length === 1;
  const [first] = wishes;
  if (isOne && first && needs === null) return `${said}: not possible.${reasonText(first)} Change it.`;
  return needs === null
    ? `${said}: not possible together. Change one of them.`
    : `${said} ${isOne ? "needs" : "need"} ${formatCount(needs, "input")}; there ${problem.inputs === 1 ? "is" : "are"} ${problem.inputs}.`;
};

/**
 * What can be had, in a line: a tick only where the patch is one of the plans and nothing is missing in it.
 * @param found null while it is worked out
 */
export const describeAllocation = (problem: AllocationProblem, found: Allocation | null): Statement => {
  const count = `${formatCount(problem.channels.length, "channel")}, ${formatCount(problem.inputs, "monitor input")}`;
  if (!found) return { tone: "care", says: count, more: "" };
  if (problem.channels.length === 0)
    return { tone: "care", says: "No channels yet", more: "Enter them under Channels." };
  const { plans, contradiction } = found;
  const why = contradiction ? describeContradiction(problem, contradiction) : "";
  const [first] = plans;
  if (!first) return { tone: "wrong", says: "No plan keeps every pin", more: why };
  const patched = plans.find(({ changes }) => changes.length === 0);
  const plan = patched ?? first;
  const isLacking = plan.leftOut.length > 0 || plan.losses.some(({ code }) => MUSTS.includes(code));
  const [worst = ""] = describePlanLosses(problem, plan);
  const stands = patched
    ? isLacking
      ? `Patched as “${PLAN_STYLES[patched.style].name}”: ${worst}`
      : ""
    : "The patch matches none of these plans yet.";
  const left = plan.leftOut.length === 0 ? "" : `, ${plan.leftOut.length} left out`;
  return {
    tone: tickUnless(contradiction !== null || isLacking || !patched, "fine"),
    says: `${count}${left}`,
    more: [why, stands].filter(Boolean).join(" "),
  };
};

/** What has to be otherwise for a loss to be none, and what is so with it: "Keys in stereo", "Keys in mono". */
const STATES: { readonly [code in LossCode]?: readonly [without: string, withLoss: string] } = {
  unheard: ["heard by all who must", "not heard by all who must"],
  "must-own-shared": ["separate", "sharing"],
  "sides-lost": ["L/R kept", "L/R lost"],
  "own-voice-shared": ["separate", "sharing"],
  "left-out": ["on an input", "left out"],
  "families-share": ["within the family", "outside the family"],
  "sections-share": ["within the section", "outside the section"],
  "image-folded": ["in stereo", "in mono"],
  "own-shared": ["separate", "sharing"],
  "stereo-folded": ["in stereo", "in mono"],
  "spare-own-shared": ["separate", "sharing"],
};

const IN_STEREO: readonly LossCode[] = ["sides-lost", "image-folded", "stereo-folded"];

const statesText = (named: (id: Id) => string, losses: readonly PlanLoss[], which: 0 | 1): string[] => {
  const parts = new Map<string, Set<string>>();
  for (const { code, channel } of losses) {
    const state = STATES[code]?.[which];
    if (state) parts.set(state, (parts.get(state) ?? new Set()).add(named(channel)));
  }
  return [...parts].map(([state, names]) => `${few([...names])} ${state}`);
};

const CASES: { readonly [code in WhatIfCode]: (problem: AllocationProblem) => string } = {
  "one-more": ({ inputs }) => `One more input (${inputs})`,
  "one-less": ({ inputs }) => `One fewer input (${inputs})`,
  "second-system": ({ inputs }) => `A second system (${formatCount(inputs, "input")})`,
  "two-drummers": () => "Two drummers",
  "mono-packs": () => "Mono packs only",
};

/** What a case would change, in one line. */
export const describePlanWhatIf = ({ code, problem, plan, gained, lost }: PlanWhatIf): string => {
  const named = namesIn(problem);
  // Where nobody hears in stereo, nothing comes to be in stereo: it is only no loss any longer.
  const told = code === "mono-packs" ? gained.filter((l) => !IN_STEREO.includes(l.code)) : gained;
  const changes = [...statesText(named, told, 0), ...statesText(named, lost, 1)];
  const left = plan ? `${formatCount(plan.inputsLeft.length, "input")} left` : "";
  const says = plan ? [...changes, left].join("; ") : "not possible with what is pinned";
  return `${CASES[code](problem)}: ${says}.`;
};
