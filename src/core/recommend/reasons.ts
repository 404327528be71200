import { mixedChannelsOf } from "../mix/bus";
import { inputOfSide, sidesOff } from "../mix/pair-order";
import type { Bus, Id, Listener, Setup } from "../model/setup";
import type { Db, Side } from "../model/units";
import { isSideOn } from "../stereo/geometry";
import type { Tally } from "../stereo/placement";
import { type Badness, NO_BADNESS, plus } from "./badness";
import type { Recommendation } from "./model";
import { hasSides, isOnBus } from "./situation";

/** Why nothing can be recommended for a bus. */
export type NothingToDo = "no channel" | "nobody" | "folded" | "mono";

/** What a recommendation does for the listener who matters most. */
export interface ForFirst {
  readonly listener: Id;
  /** Sees the kit side-on, or hears nothing that has a side: then only the others decide. */
  readonly decides: "decides" | "side-on" | "hears nothing";
  /** Wrong and lost sides, and channels without a side, now and once it is applied. */
  readonly wrong: readonly [now: number, then: number];
  readonly flat: readonly [now: number, then: number];
}

/** What speaks against a recommendation beside a better one: the first criterion in which it is behind, and by how much. */
export type Drawback =
  | { readonly by: "wrong" | "flat" | "score"; readonly for: "first" | "others"; readonly more: number }
  | { readonly by: "inputs" | "moves"; readonly more: number }
  | { readonly by: "residual"; readonly more: Db };

/** Why the first of the ranked recommendations is the first. */
export interface Reasons {
  readonly nothing: NothingToDo | null;
  /** Sides that are switched off at their monitor inputs: all figures hold with them off. */
  readonly off: readonly { readonly side: Side; readonly input: number }[];
  /** Null where nobody who hears anything matters most. */
  readonly first: ForFirst | null;
  /** The same for all others together. */
  readonly others: Pick<ForFirst, "wrong" | "flat">;
  /** What speaks against the second; null without one. */
  readonly against: Drawback | null;
}

const wrongIn = (tally: Tally): number => tally.wrong + tally.sidesLost;

const badnessFor = ({ outcomes }: Recommendation, which: (id: Id) => boolean): Badness =>
  outcomes
    .filter((o) => which(o.listener))
    .reduce<Badness>((bus, { tally }) => plus(bus, [wrongIn(tally), tally.centred, 0]), NO_BADNESS);

const drawbackOf = (best: Recommendation, next: Recommendation): Drawback | null => {
  for (const who of ["first", "others"] as const)
    for (const [at, by] of (["wrong", "flat", "score"] as const).entries()) {
      const more = (next.criteria[who][at] as number) - (best.criteria[who][at] as number);
      if (more !== 0) return { by, for: who, more };
    }
  for (const by of ["inputs", "moves", "residual"] as const) {
    const more = next.criteria[by] - best.criteria[by];
    if (more !== 0) return { by, more };
  }
  return null;
};

const nothingToDo = (setup: Setup, bus: Bus, sounds: boolean): NothingToDo | null => {
  if (!sounds) return "no channel";
  if (!setup.listeners.some((l) => isOnBus(l, bus))) return "nobody";
  if (hasSides(bus)) return null;
  return bus.stereo ? "folded" : "mono";
};

const forFirst = (setup: Setup, bus: Bus, listener: Listener, now: Tally, then: Tally): ForFirst => {
  const hears = now.right + now.wrong + now.centred + now.sidesLost > 0;
  const sideOn = isOnBus(listener, bus) && isSideOn(setup.kit, listener);
  return {
    listener: listener.id,
    decides: sideOn ? "side-on" : hears ? "decides" : "hears nothing",
    wrong: [wrongIn(now), wrongIn(then)],
    flat: [now.centred, then.centred],
  };
};

/** Why the first of the ranked recommendations for a bus is the first. */
export const reasonsFor = (setup: Setup, bus: Bus, ranked: readonly Recommendation[]): Reasons => {
  const [best, next] = ranked;
  const leave = ranked.find((r) => r.id === "leave");
  const sounds = mixedChannelsOf(setup, bus).length > 0;
  const isLeave = best?.id === "leave";
  const first = setup.listeners.find((l) => l.id === setup.preferences.first);
  const tally = (of: Recommendation | undefined): Tally | undefined =>
    of?.outcomes.find((o) => o.listener === first?.id)?.tally;
  const [now, then] = [tally(leave), tally(best)];
  const others = (of: Recommendation | undefined): Badness =>
    of ? badnessFor(of, (id) => id !== first?.id) : NO_BADNESS;
  const [before, after] = [others(leave), others(best)];
  const off = sidesOff(setup.monitor, bus);
  const sides: readonly Side[] = bus.stereo ? ["left", "right"] : ["left"];
  return {
    nothing: isLeave ? nothingToDo(setup, bus, sounds) : null,
    off: sides
      .filter((_, at) => off[at])
      .map((side) => ({ side, input: inputOfSide(setup.monitor, bus, side) })),
    first: first && now && then ? forFirst(setup, bus, first, now, then) : null,
    others: { wrong: [before[0], after[0]], flat: [before[1], after[1]] },
    against: best && next ? drawbackOf(best, next) : null,
  };
};
