import { sumCalled } from "../../core/called";
import "./sum.css";
import { computed, useComputed } from "@preact/signals";
import type { Id, Sum } from "../../core/setup";
import type { Ceiling } from "../../core/sum/ceilings";
import { shortLine } from "../../core/sum/say";
import { current, figures } from "../../document/store";
import { Icon } from "../../pieces/icon";
import { chooseSum } from "../state";

/** A sum that lacks headroom: the ceiling that decides, and whose send costs most of the peak there. */
interface Flag {
  readonly sum: Sum;
  readonly lowest: Ceiling;
  readonly source: Id | undefined;
}

const flags = computed<readonly Flag[]>(() =>
  current.value.sums.flatMap((sum) => {
    const its = figures.value.sums.get(sum.id);
    if (!its?.remedy) return [];
    const { lowest, legs } = its;
    const source = legs[lowest.leg === "left" ? 0 : 1].costliest.peak?.source;
    return [{ sum, lowest, source }];
  }),
);

/** A word that leads to a sum. */
const ToSum = ({ sum, says }: { sum: Sum; says: string }) => (
  // biome-ignore lint/a11y/useValidAnchor: it leads to a place; the click only adds of which sum.
  <a class="to-sum" href="#sum" onClick={() => chooseSum(sum.id)}>
    {says}
  </a>
);

/** Which sums lack headroom, in a line for another screen's statement; of all sums, or of one. Nothing where all fit. */
export const SumFlags = ({ only }: { only?: Id | null }) =>
  flags.value
    .filter((f) => only === undefined || f.sum.id === only)
    .map(({ sum, lowest }) => (
      <ToSum key={sum.id} sum={sum} says={shortLine({ lowest }, sum, current.value.wishes.margin)} />
    ));

const flagsOf = (source: Id): readonly Flag[] | null => {
  const its = flags.value.filter((f) => f.source === source);
  return its.length > 0 ? its : null;
};

/** On a source, always the same one: the sums without headroom in which its send costs most. */
export const SumMark = ({ source }: { source: Id }) => {
  const its = useComputed(() => flagsOf(source)).value;
  return (its ?? []).map(({ sum, lowest }) => {
    const over = lowest.state === "over";
    const name = sumCalled(sum);
    return (
      <p key={sum.id} class={`row${over ? " bad" : ""}`}>
        <Icon name={over ? "wrong" : "care"} size={18} />
        <ToSum sum={sum} says={over ? `Takes ${name} over` : `Costs ${name} its margin`} />
      </p>
    );
  });
};
