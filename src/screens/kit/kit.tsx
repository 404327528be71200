import { centreLevel, LAWS } from "../../core/laws";
import { printNumber } from "../../core/number";
import { addSource } from "../../document/commands/sources";
import { current, figures, run } from "../../document/store";
import { Icon } from "../../pieces/icon";
import { Verdict } from "../../pieces/verdict";
import { SumPick } from "../sum-pick";
import { chosenSum } from "../state";
import { ConsoleSettings } from "./console-settings";
import { SourceRow } from "./source-row";

/** One line on the pan law in force. */
const lawLine = (): string => {
  const { law, centreDb, reference } = current.value.console;
  const centre = reference === "sides" ? printNumber(centreLevel(law, centreDb), 1) : "0";
  return `${LAWS[law].name}: centre ${centre} dB, ${reference === "sides" ? "sides at 0 dB" : "centre at 0 dB"}.`;
};

const headline = (): string => {
  const sum = chosenSum.value;
  if (!sum) return "No sum yet: every source is on its own";
  const sounding = figures.value.parts.get(sum.id)?.length ?? 0;
  if (sounding === 0) return `Nothing sounds in ${sum.name} yet`;
  const sources = sounding === 1 ? "1 source makes" : `${sounding} sources make`;
  return `${sources} one ${sum.stereo ? "pair" : "mono sum"}: ${sum.name}`;
};

/** The place for sources: what there is, where it is panned, how loud it is, what goes into the sum. */
export const KitScreen = () => {
  const { sources } = current.value;
  return (
    <>
      <Verdict tone={sources.length === 0 ? "care" : "fine"} says={headline()}>
        {lawLine()}
      </Verdict>
      <SumPick label="Sends shown are into" />
      <ul class="stack sources" aria-label="Sources">
        {sources.map((source, at) => (
          <SourceRow key={source.id} source={source} first={at === 0} last={at === sources.length - 1} />
        ))}
      </ul>
      {sources.length === 0 ? (
        <p class="soft">No source yet. Add the first microphone, or start from a template under Setups.</p>
      ) : null}
      <button type="button" class="main" onClick={() => run(addSource())}>
        <span class="row">
          <Icon name="plus" /> Add a source
        </span>
      </button>
      <ConsoleSettings />
    </>
  );
};
