import { formatNumber } from "../lib/number";
import type { Listener } from "../model/setup";
import { busName, listenerName } from "../names";
import { isSideOn } from "../stereo/geometry";
import type { Tally } from "../stereo/placement";
import { switchedOff } from "../stereo/switched-off";
import { capitalised, formatCount } from "../words";
import { type Badness, badnessOf } from "./badness";
import { hasSides } from "./parts";
import type { Outcome, Repair } from "./repairs";
import { sayRepair } from "./say";
import type { Situation } from "./situation";

/** The answer in plain words. */
export interface Advice {
  /** What to do, without a full stop. */
  readonly headline: string;
  /** Why that, in sentences. */
  readonly why: string;
}

const sides = (tally: Tally): number => badnessOf(tally)[0];

/** Badness of several together. */
const total = (tallies: readonly Tally[]): Badness => {
  const all = [0, 0, 0] as [number, number, number];
  for (const tally of tallies)
    badnessOf(tally).forEach((n, at) => {
      all[at] = (all[at] as number) + n;
    });
  return all;
};

const tallyFor = (repair: Repair, listener: Listener): Tally | undefined =>
  repair.outcomes.find((o) => o.listener === listener.id)?.tally;

/** What is said where no side is wrong any more. */
const cleared = (flat: number): string => (flat === 0 ? "every side correct" : "no side wrong");

const forFirst = (first: Listener, now: Tally, then: Tally, isLeave: boolean): string => {
  const who = capitalised(listenerName(first));
  const [before, after] = [sides(now), sides(then)];
  if (now.right + now.wrong + now.centred + now.sidesLost === 0)
    return `${who} hears nothing of it that has a side.`;
  if (after === 0 && before > 0)
    return `${who} then has ${cleared(then.centred)}; ${before} ${before === 1 ? "was" : "were"} wrong.`;
  if (after < before) return `${who} then has ${formatCount(after, "side")} wrong instead of ${before}.`;
  if (after > 0) return `${who} has ${formatCount(after, "side")} wrong, and nothing improves that.`;
  if (then.centred < now.centred)
    return `${who} then has ${then.centred} without a side instead of ${now.centred}.`;
  return then.centred === 0
    ? `${who} has every side correct${isLeave ? " already" : ""}.`
    : `${who} has no side wrong, but ${formatCount(then.centred, "source")} flat: only their pans can change that.`;
};

const forOthers = ([before]: Badness, [after, flat]: Badness): string => {
  if (before === 0 && after === 0) return "";
  if (after === 0)
    return `Everybody else who can tell the sides then has ${cleared(flat)}; before, ${before} ${before === 1 ? "was" : "were"} wrong there.`;
  if (after === before)
    return `For the others ${formatCount(after, "side")} ${after === 1 ? "stays" : "stay"} wrong.`;
  return `For the others ${formatCount(after, "side")} ${after === 1 ? "is" : "are"} wrong then instead of ${before}.`;
};

const orNo = (count: number, what: string): string => (count === 0 ? `no ${what}` : formatCount(count, what));

/** What a recommendation costs in moves and inputs, and what FOH notices of it: one sentence. */
export const costSaid = ({ criteria, foh }: Pick<Repair, "criteria" | "foh">): string => {
  const noticed =
    foh.length === 0 ? "FOH notices nothing" : `FOH hears ${formatCount(foh.length, "source")} elsewhere`;
  return `It takes ${orNo(criteria.moves, "move")} and ${orNo(criteria.inputs, "slot")}; ${noticed}.`;
};

/** Badness of a recommendation for the one who matters most, and for all others together. */
const badnessFor = ({ outcomes }: Repair, first: Listener | undefined): readonly [Badness, Badness] => {
  const isFirst = (o: Outcome): boolean => o.listener === first?.id;
  const of = (list: readonly Outcome[]): Badness => total(list.map((o) => o.tally));
  return [of(outcomes.filter(isFirst)), of(outcomes.filter((o) => !isFirst(o)))];
};

/** What is worse for somebody; null when nothing is. */
const worseFor = (who: string, best: Badness, next: Badness): string | null => {
  const at = next.findIndex((n, i) => n !== best[i]);
  const more = (next[at] ?? 0) - (best[at] ?? 0);
  if (at === 0) return `leaves ${more} more ${more === 1 ? "side" : "sides"} wrong for ${who}`;
  if (at === 1) return `leaves ${more} more ${more === 1 ? "source" : "sources"} flat for ${who}`;
  return at === 2 ? `is less clear for ${who}` : null;
};

/** What speaks against the second, in the order of weight. */
const against = (best: Repair, next: Repair, first: Listener | undefined): string => {
  const [a, b] = [badnessFor(best, first), badnessFor(next, first)];
  const more = (n: number, what: string): string => `takes ${n} more ${n === 1 ? what : `${what}s`}`;
  const { inputs, moves, residual } = next.criteria;
  return (
    worseFor(first ? listenerName(first) : "who matters most", a[0], b[0]) ??
    worseFor("the others", a[1], b[1]) ??
    (inputs > best.criteria.inputs
      ? more(inputs - best.criteria.inputs, "slot")
      : moves > best.criteria.moves
        ? more(moves - best.criteria.moves, "move")
        : `is ${formatNumber(residual - best.criteria.residual, 2)} dB less exact`)
  );
};

/** Why nothing can be said of a bus; null when something can. */
const nothingToSay = ({ voices, members, bus }: Situation): Advice | null => {
  const name = busName(bus);
  if (voices.length === 0)
    return { headline: `Nothing sounds in ${name}`, why: "Send a channel into it that is not muted." };
  if (members.length === 0)
    return {
      headline: `Nobody hears ${name}`,
      why: "Say who hears it, and it can be said what is best for them.",
    };
  if (!hasSides(bus))
    return {
      headline: bus.stereo ? `${name} is folded to mono` : `${name} is mono`,
      why: "Both ears get the same: nothing can be reversed, nothing put right.",
    };
  return null;
};

/** What to do and why, of the recommendations as they are ranked. */
export const adviceOf = (situation: Situation, ranked: readonly Repair[]): Advice => {
  const { setup, bus, members } = situation;
  const [best, next] = ranked;
  const leave = ranked.find((r) => r.id === "leave");
  // There always is a recommendation: to leave it.
  if (!best || !leave) return { headline: "", why: "" };
  const nothing = best === leave ? nothingToSay(situation) : null;
  if (nothing) return nothing;
  const first = setup.listeners.find((l) => l.id === setup.preferences.first);
  const isLeave = best === leave;
  const off = switchedOff(setup.monitor, bus);
  const why = off ? [`${busName(bus)} is off in inputs ${off.inputs.map((i) => i + 1).join(", ")}.`] : [];
  const [now, then] = first ? [tallyFor(leave, first), tallyFor(best, first)] : [];
  if (first && now && then) {
    if (members.some((m) => m.listener === first) && isSideOn(setup.kit, first))
      why.push(`${capitalised(listenerName(first))} stands side-on to the kit, so only the others decide.`);
    else why.push(forFirst(first, now, then, isLeave));
  }
  why.push(forOthers(badnessFor(leave, first)[1], badnessFor(best, first)[1]));
  if (!isLeave) why.push(costSaid(best));
  if (next) why.push(`Second best, “${sayRepair(setup, bus, next)}”, ${against(best, next, first)}.`);
  return { headline: sayRepair(setup, bus, best), why: why.filter(Boolean).join(" ") };
};
