import { addSum } from "../../document/commands/sums";
import { current, figures, run } from "../../document/store";
import { lazy } from "../../pieces/lazy";
import { Verdict } from "../../pieces/verdict";
import { sourceName } from "../names";
import { chosenSum } from "../state";
import { SumPick } from "../sum-pick";
import { Chain } from "./chain";
import { ContributionBars } from "./contributions";
import { LegTable } from "./leg-table";
import { RemedyCard } from "./remedy";
import { db, fitLine } from "./words";

const More = lazy(async () => (await import("./more")).More);
const Recordings = lazy(async () => (await import("../recordings/recordings")).Recordings);

const AddSums = () => (
  <div class="row">
    <button type="button" onClick={() => run(addSum(true))}>
      Add a pair
    </button>
    <button type="button" onClick={() => run(addSum(false))}>
      Add a mono sum
    </button>
  </div>
);

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
  const name = sum.name || "this sum";
  const { tone, says } = fitLine(sumFigures, name, current.value.wishes.margin);
  const { loudest, likely } = sumFigures.legs[sumFigures.lowest.leg === "left" ? 0 : 1];
  return (
    <>
      <Verdict tone={tone} says={says}>
        {loudest
          ? `Likely peak ${db(likely)} dBFS on the ${sum.stereo ? `${sumFigures.lowest.leg} leg` : "leg"}; loudest in it is ${sourceName(loudest.source)} with ${db(loudest.peak)}.`
          : "Enter levels and peaks under Kit, or measure a recording."}
      </Verdict>
      <SumPick label="Sum" />
      <div class="two">
        <div class="stack">
          <Chain ceilings={sumFigures.ceilings} lowest={sumFigures.lowest} />
          <RemedyCard sum={sum} remedy={sumFigures.remedy} />
          <LegTable sum={sum} figures={sumFigures} />
        </div>
        <div class="stack">
          <ContributionBars sum={sum} figures={sumFigures} />
        </div>
      </div>
      <Recordings sum={sum} />
      <More sum={sum} figures={sumFigures} />
      <AddSums />
    </>
  );
};
