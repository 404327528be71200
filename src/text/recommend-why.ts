import { quoted } from "../core/lib/direction";
import { formatNumber } from "../core/lib/number";
import type { Bus, Setup } from "../core/model/setup";
import type { Premise, Recommendation, WhatIf } from "../core/recommend/model";
import type { Drawback, ForFirst, NothingToDo, Reasons } from "../core/recommend/reasons";
import { busName, channelName } from "./names";
import { describeParts, input, listenerOf, type Names } from "./recommend";
import { capitalised, formatCount, formatList } from "./words";

const be = (count: number): string => (count === 1 ? "is" : "are");
const onWrongSide = (count: number): string => `${formatCount(count, "channel")} on the wrong side`;

const NOTHING: { readonly [why in NothingToDo]: (bus: string) => readonly [headline: string, why: string] } =
  {
    "no channel": (bus) => [`Nothing is sent to ${bus}`, "Send it a channel that is not muted."],
    nobody: (bus) => [`Nobody hears ${bus}`, "Choose who hears it to get a recommendation."],
    folded: (bus) => [
      `${bus} is folded to mono`,
      "Both ears get the same: there is no left or right to correct.",
    ],
    mono: (bus) => [`${bus} is mono`, "Both ears get the same: there is no left or right to correct."],
  };

const describeFirst = (who: string, { decides, wrong, flat }: ForFirst, isLeave: boolean): string => {
  const [before, after] = wrong;
  if (decides === "side-on")
    return `${capitalised(who)} is side-on to the kit, so the other listeners decide.`;
  if (decides === "hears nothing") return `Nothing that ${who} hears here has a side.`;
  if (after === 0 && before > 0)
    return flat[1] === 0
      ? `${capitalised(who)} then hears every channel on the right side; ${before} ${be(before)} wrong now.`
      : `${capitalised(who)} then has nothing on the wrong side; ${before} ${be(before)} wrong now.`;
  if (after < before) return `${capitalised(who)} then has ${onWrongSide(after)} instead of ${before}.`;
  if (after > 0) return `${capitalised(who)} has ${onWrongSide(after)}, and nothing here improves that.`;
  if (flat[1] < flat[0])
    return `${capitalised(who)} then has ${formatCount(flat[1], "channel")} centred instead of ${flat[0]}.`;
  return flat[1] === 0
    ? `${capitalised(who)} hears every channel on the right side${isLeave ? " already" : ""}.`
    : `${capitalised(who)} has nothing on the wrong side, but ${formatCount(flat[1], "channel")} centred: only their pans can change that.`;
};

const describeOthers = ({ wrong: [before, after], flat }: Reasons["others"]): string => {
  if (before === 0 && after === 0) return "";
  if (after === 0) {
    const then = flat[1] === 0 ? "hears every channel on the right side" : "has nothing on the wrong side";
    return `Everyone else then ${then}; ${before} ${be(before)} wrong now.`;
  }
  if (after === before)
    return `${formatCount(after, "channel")} ${after === 1 ? "stays" : "stay"} on the wrong side for the others.`;
  return `The others then have ${onWrongSide(after)} instead of ${before}.`;
};

/** What a recommendation takes, and what changes at FOH. */
export const describeCost = ({ criteria, foh }: Pick<Recommendation, "criteria" | "foh">): string => {
  const { moves, inputs } = criteria;
  const takes = moves === 0 ? "Nothing to change" : `Takes ${formatCount(moves, "change")}`;
  const more = inputs === 0 ? "no extra monitor inputs" : formatCount(inputs, "extra monitor input");
  const atFoh =
    foh.length === 0 ? "FOH stays as it is" : `FOH changes for ${formatCount(foh.length, "channel")}`;
  return `${takes}, ${more}; ${atFoh}.`;
};

const describeDrawback = (drawback: Drawback, first: string): string => {
  switch (drawback.by) {
    case "wrong":
    case "flat":
    case "score": {
      const who = drawback.for === "first" ? first : "the others";
      if (drawback.by === "score") return `is less clear for ${who}`;
      const where = drawback.by === "wrong" ? "on the wrong side" : "centred";
      return `leaves ${formatCount(drawback.more, "more channel")} ${where} for ${who}`;
    }
    case "inputs":
      return `takes ${formatCount(drawback.more, "more monitor input")}`;
    case "moves":
      return `takes ${formatCount(drawback.more, "more change")}`;
    case "residual":
      return `is ${formatNumber(drawback.more, 2)} dB further from an exact mirror`;
  }
};

const describeOff = (bus: string, off: Reasons["off"], stereo: boolean): string[] => {
  if (off.length === 0) return [];
  const sides = off.map(({ side }) => (stereo ? `${bus} ${side === "left" ? "L" : "R"}` : bus));
  const inputs = [...off].sort((a, b) => a.input - b.input).map((o) => input(o.input));
  return [
    `${formatList(sides)} ${be(off.length)} off, and this is worked out with ${off.length === 1 ? "it" : "them"} off. Switch ${formatList(inputs)} on at the monitor system first.`,
  ];
};

/** The answer in plain words. */
export interface Advice {
  /** What to do, without a full stop. */
  readonly headline: string;
  /** Why that, in sentences. */
  readonly why: string;
}

/** What to do about a bus and why. */
export const describeAdvice = (
  setup: Setup,
  bus: Bus,
  [best, next]: readonly Recommendation[],
  reasons: Reasons,
): Advice => {
  const name = busName(bus);
  if (reasons.nothing) {
    const [headline, why] = NOTHING[reasons.nothing](name);
    return { headline, why };
  }
  // There always is a recommendation: to leave it.
  if (!best) return { headline: "", why: "" };
  const isLeave = best.id === "leave";
  const who = reasons.first ? listenerOf(setup, reasons.first.listener) : "the one who matters most";
  const why = [
    ...describeOff(name, reasons.off, bus.stereo),
    reasons.first ? describeFirst(who, reasons.first, isLeave) : "",
    describeOthers(reasons.others),
    isLeave ? "" : describeCost(best),
    next && reasons.against
      ? `Second best, ${quoted(describeParts(setup, bus, next.parts))}, ${describeDrawback(reasons.against, who)}.`
      : "",
  ];
  return { headline: describeParts(setup, bus, best.parts), why: why.filter(Boolean).join(" ") };
};

/** That there is something to do about a bus, in another statement. */
export const describeRecommended = (bus: Bus, { headline }: Advice): string =>
  `Recommended for ${busName(bus)}: ${headline}.`;

/** A fact that is taken to be otherwise, up to the comma: "If Mara faced the other way". */
export const describePremise = (setup: Names, bus: Bus, premise: Premise): string => {
  switch (premise.if) {
    case "turned":
      return `If ${listenerOf(setup, premise.listener)} faced the other way`;
    case "first":
      return `If ${listenerOf(setup, premise.listener)} mattered most`;
    case "without": {
      const [only, ...more] = premise.channels;
      const gone =
        more.length === 0
          ? `${channelName(setup, only ?? "")} were`
          : `the ${more.length + 1} channels that keep L/R were`;
      return `If ${gone} not in ${busName(bus)}`;
    }
    case "FOH may change":
      return "If FOH could change";
    case "FOH must not change":
      return "If FOH had to stay as it is";
    case "inputs":
      return premise.more < 0
        ? "With one fewer monitor input"
        : `With ${premise.more === 1 ? "one more monitor input" : "two more monitor inputs"}`;
    case "free inputs may be used":
      return "If free monitor inputs could be used";
    case "free inputs must not be used":
      return "If no free monitor input could be used";
  }
};

/** A fact that would change the recommendation, and what would be best then: "If Mara faced the other way: leave Drums as it is". */
export const describeWhatIf = (
  setup: Setup,
  bus: Bus,
  { premise, parts }: WhatIf,
): { readonly fact: string; readonly instead: string } => ({
  fact: describePremise(setup, bus, premise),
  instead: describeParts(setup, bus, parts),
});
