import { type Badness, badnessOf, compareBadness, NO_BADNESS, plus } from "./badness";
import { busesWith, type Effect } from "./effects";
import type { Frame } from "./frame";
import type { BusChange, Mirrored, RankedPlan, RecommendOption } from "./model";
import { compareOptions, residualsOf } from "./options";

/** What may be done for listeners alone. */
export const PERMITS = [
  { flip: true, own: true },
  { flip: true, own: false },
  { flip: false, own: true },
  { flip: false, own: false },
] as const;

/** What is to be chosen from at each seat. */
interface Menu {
  readonly isFirst: boolean;
  readonly nothing: RecommendOption;
  readonly flip: RecommendOption | null;
  readonly own: RecommendOption | null;
}

const menusOf = (frame: Frame, mirrored: Mirrored, residual: number): Menu[] => {
  const { seats, change, minding } = frame;
  const channels = change.panning === "foh" ? minding(mirrored) : [];
  const known = new Map<Effect, Badness>();
  const badness = (effect: Effect): Badness => {
    const its = known.get(effect) ?? badnessOf(busesWith(effect, mirrored));
    known.set(effect, its);
    return its;
  };
  return seats.map(({ isFirst, mono, nothing, flip, own }) => {
    const shared = (does: "nothing" | "flip", effect: Effect): RecommendOption => ({
      choice: { does },
      badness: badness(effect),
      inputs: 0,
      moves: does === "flip" ? 1 : 0,
      residual: mono ? 0 : residual,
    });
    return {
      isFirst,
      nothing: shared("nothing", nothing),
      flip: flip && shared("flip", flip),
      own: own?.(channels) ?? null,
    };
  });
};

/** Who gets a bus of their own: who gains by it, who matters most before all, then who gains most, while inputs last. */
const owners = (
  menus: readonly Menu[],
  shared: readonly RecommendOption[],
  freeInputs: number,
): ReadonlySet<number> => {
  const gains = menus.flatMap(({ own, isFirst }, at) => {
    const now = (shared[at] as RecommendOption).badness;
    if (!own || compareBadness(own.badness, now) >= 0) return [];
    const gain: Badness = [now[0] - own.badness[0], now[1] - own.badness[1], now[2] - own.badness[2]];
    return [{ at, gain, own, isFirst }];
  });
  gains.sort(
    (a, b) =>
      Number(b.isFirst) - Number(a.isFirst) || compareBadness(b.gain, a.gain) || a.own.moves - b.own.moves,
  );
  const taken = new Set<number>();
  let left = freeInputs;
  for (const { at, own } of gains)
    if (own.inputs <= left) {
      taken.add(at);
      left -= own.inputs;
    }
  return taken;
};

/** The best plans with some pans mirrored, one for each permit. */
export const plansWith = (frame: Frame, mirrored: Mirrored): RankedPlan[] => {
  const change: BusChange = { ...frame.change, mirrored };
  const residuals = residualsOf(frame.situation, change);
  const menus = menusOf(frame, mirrored, residuals.bus);
  let [firstElsewhere, othersElsewhere] = [NO_BADNESS, NO_BADNESS];
  for (const { isFirst, effect } of frame.elsewhere) {
    const its = badnessOf(change.panning === "foh" ? busesWith(effect, mirrored) : effect.base);
    if (isFirst) firstElsewhere = plus(firstElsewhere, its);
    else othersElsewhere = plus(othersElsewhere, its);
  }
  const busMoves = Number(change.swap) + Number(change.fold) + mirrored.length;
  return PERMITS.map((permit) => {
    const shared = menus.map(({ nothing, flip }) =>
      permit.flip && flip && compareOptions(flip, nothing) < 0 ? flip : nothing,
    );
    const taken = permit.own ? owners(menus, shared, frame.freeInputs) : null;
    let [first, others] = [firstElsewhere, othersElsewhere];
    let [inputs, moves] = [0, busMoves];
    const options = menus.map(({ isFirst, own }, at): RecommendOption => {
      const option = taken?.has(at) && own ? own : (shared[at] as RecommendOption);
      if (isFirst) first = plus(first, option.badness);
      else others = plus(others, option.badness);
      inputs += option.inputs;
      moves += option.moves;
      return option;
    });
    return {
      change,
      first,
      others,
      inputs,
      moves,
      // Few plans are as good as another but for the residual, and fewer are carried out.
      get choices() {
        return options.map((o) => o.choice);
      },
      get residual() {
        return options.reduce((most, o) => Math.max(most, o.residual), residuals.foh);
      },
    };
  });
};
