import { signal } from "@preact/signals";
import { centreLevel, LAWS } from "../../core/laws";
import { printNumber, printSigned } from "../../core/number";
import { addSource } from "../../document/commands/sources";
import { current, figures } from "../../document/store";
import { Choice } from "../../pieces/choice";
import { Explain } from "../../pieces/explain";
import { Icon } from "../../pieces/icon";
import { lazy } from "../../pieces/lazy";
import { Verdict } from "../../pieces/verdict";
import { runOrSay } from "../act";
import { full, sumName } from "../names";
import { chosenSum } from "../state";
import { SumFlags } from "../sum/flags";
import { SumPick } from "../sum-pick";
import { SourceRow } from "./source-row";

const KitHelp = lazy(async () => (await import("./help")).KitHelp);
const ConsoleSettings = lazy(async () => (await import("./console-settings")).ConsoleSettings);

/** One line on the pan law in force. */
const lawLine = (): string => {
  const { law, centreDb, reference } = current.value.console;
  const centre = centreLevel(law, centreDb);
  const said =
    reference === "sides"
      ? `centre ${printNumber(centre, 1)} dB, sides at 0 dB`
      : `centre at 0 dB, sides ${printSigned(-centre, 1)} dB`;
  return `${LAWS[law].name}: ${said}.`;
};

const headline = (): string => {
  const sum = chosenSum.value;
  if (!sum) return "No sum yet: every source is on its own";
  const sounding = figures.value.parts.get(sum.id)?.length ?? 0;
  if (sounding === 0) return `Nothing sounds in ${sumName(sum.id)} yet`;
  const sources = sounding === 1 ? "1 source makes" : `${sounding} sources make`;
  return `${sources} one ${sum.stereo ? "pair" : "mono sum"}: ${sumName(sum.id)}`;
};

/** Only the sources of the chosen sum are listed; the others behind one tap. */
const onlySum = signal(true);

/** The place for sources: what there is, where it is panned, how loud it is, what goes into the sum. */
export const KitScreen = () => {
  const { sources } = current.value;
  const sum = chosenSum.value;
  const inSum = new Set(sum?.sends.map((s) => s.source));
  const listed = onlySum.value && inSum.size > 0 ? sources.filter((s) => inSum.has(s.id)) : sources;
  return (
    <>
      <Verdict tone={sources.length === 0 ? "care" : "fine"} says={headline()}>
        {lawLine()} Each mark is the house pan; beside it what each leg gets, dB. <SumFlags />
      </Verdict>
      <SumPick label="Legs and sends are of" />
      {inSum.size > 0 && inSum.size < sources.length ? (
        <Choice
          label="Sources listed"
          hideLabel
          value={onlySum.value ? "sum" : "all"}
          options={[
            ["sum", `In ${sumName(sum?.id ?? "")} (${inSum.size})`],
            ["all", `All sources (${sources.length})`],
          ]}
          onValue={(v) => {
            onlySum.value = v === "sum";
          }}
        />
      ) : null}
      <ul class="stack sources" aria-label="Sources">
        {listed.map((source, at) => (
          <SourceRow key={source.id} source={source} before={listed[at - 1]?.id} after={listed[at + 1]?.id} />
        ))}
      </ul>
      {sources.length === 0 ? (
        <p class="soft">No source yet. Add the first microphone, or start from a template under Setups.</p>
      ) : null}
      <button
        type="button"
        class="main"
        onClick={() => runOrSay(addSource(sum?.id ?? null), full("sources"))}
      >
        <span class="row">
          <Icon name="plus" /> Add a source
        </span>
      </button>
      <Explain about="What level, peak and send mean">
        <KitHelp />
      </Explain>
      <ConsoleSettings />
    </>
  );
};
