import { sumCalled } from "../../core/called";
import type { Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import { counted } from "../../core/words";
import { current, figures } from "../../document/store";
import { lazy } from "../../pieces/lazy";
import { Verdict } from "../../pieces/verdict";
import { sourceName } from "../names";
import { chosenSum } from "../state";
import { SumPick } from "../sum-pick";
import { Chain } from "./chain";
import { RemedyCard } from "./remedy";
import { db, fitLine } from "./words";

const AddSums = lazy(async () => (await import("./add-sums")).AddSums);
const Inside = lazy(async () => (await import("./inside")).Inside);
const More = lazy(async () => (await import("./more")).More);
const Recordings = lazy(async () => (await import("../recordings/recordings")).Recordings);

/** What stands behind the answer: the peak that decides and what is loudest in it, or what is missing to know it. */
const reason = (sum: Sum, its: SumFigures): string => {
  if (sum.sends.length === 0) return "Choose below what goes into it.";
  const { lowest, legs, unknown } = its;
  const { loudest, likely } = legs[lowest.leg === "left" ? 0 : 1];
  if (!loudest) return "Enter levels and peaks under Kit, or measure a recording.";
  const leg = sum.stereo ? `the ${lowest.leg} leg` : "the leg";
  const peak = `Likely peak ${db(likely)} dBFS on ${leg}; loudest in it is ${sourceName(loudest.source)} with ${db(loudest.peak)}.`;
  if (unknown.peak.length === 0) return peak;
  return `${peak} Not counted: ${counted(unknown.peak.length, "source")} without a known peak.`;
};

/** The place for level: will it fit, where does it break first, what did summing cost, which send to pull. */
export const SumScreen = () => {
  const sum = chosenSum.value;
  const sumFigures = sum && figures.value.sums.get(sum.id);
  if (!sum || !sumFigures) {
    return (
      <>
        <Verdict tone="care" says="No sum yet">
          A sum mixes several sources to one leg or to a pair, so that they take one or two slots.
        </Verdict>
        <AddSums />
        <Recordings sum={null} />
      </>
    );
  }
  const name = sumCalled(sum);
  const { tone, says } = fitLine(sumFigures, name, current.value.wishes.margin);
  return (
    <>
      <Verdict tone={tone} says={says}>
        {reason(sum, sumFigures)}
      </Verdict>
      <SumPick label="Sum" />
      <div class="two">
        <div class="stack">
          {sum.sends.length === 0 ? null : (
            <Chain ceilings={sumFigures.ceilings} lowest={sumFigures.lowest} />
          )}
          <RemedyCard sum={sum} remedy={sumFigures.remedy} />
        </div>
        <div class="stack">
          <Inside sum={sum} figures={sumFigures} />
        </div>
      </div>
      <Recordings sum={sum} />
      <More sum={sum} figures={sumFigures} />
      <AddSums />
    </>
  );
};
