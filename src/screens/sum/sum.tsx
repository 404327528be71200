import { fitLine, fitReason } from "../../core/sum/say";
import { current, figures } from "../../document/store";
import { lazy } from "../../pieces/lazy";
import { Verdict } from "../../pieces/verdict";
import { chosenSum } from "../state";
import { SumPick } from "../sum-pick";
import { Chain } from "./chain";
import { RemedyCard } from "./remedy";

const AddSums = lazy(async () => (await import("./add-sums")).AddSums);
const Inside = lazy(async () => (await import("./inside")).Inside);
const More = lazy(async () => (await import("./more")).More);
const Recordings = lazy(async () => (await import("../recordings/recordings")).Recordings);

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
  const { tone, says } = fitLine(sumFigures, sum, current.value.wishes.margin);
  return (
    <>
      <Verdict tone={tone} says={says}>
        {fitReason(current.value, sum, sumFigures)}
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
