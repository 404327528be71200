import type { PatchFigures } from "../../core/inputs/figures";
import { setInputCount } from "../../document/commands/inputs";
import { current, endDrag, figures } from "../../document/store";
import type { Tone } from "../../text/statement";
import { formatCount } from "../../text/words";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";
import { NumberField } from "../../ui/number-field";
import { Verdict } from "../../ui/verdict";
import { typing } from "../act";
import { BusFlags } from "../headroom/issues";
import { RULES } from "../rules";
import { InputList } from "./input-list";
import { Unplaced } from "./unassigned";

const headline = ({ usage, flags }: PatchFigures, inputCount: number): { tone: Tone; says: string } => {
  const feeds = formatCount(usage.used.length, "feed");
  const faults = flags.filter((f) => f.severity === "fault").length;
  if (usage.tooMany > 0)
    return { tone: "wrong", says: `${formatCount(usage.tooMany, "feed")} too many for ${inputCount} inputs` };
  if (usage.used.length === 0) return { tone: "care", says: "Nothing is patched yet" };
  if (faults > 0) return { tone: "wrong", says: `${formatCount(faults, "fault")} in the patch` };
  return {
    tone: "fine",
    says: `${feeds} ${usage.used.length === 1 ? "fits" : "fit"}: ${formatCount(usage.free.length, "input")} free`,
  };
};

const PatchHelp = lazy(async () => (await import("./help")).PatchHelp);
const Flags = lazy(async () => (await import("./issues")).Flags);
const Fits = lazy(async () => (await import("./free-inputs")).Fits);
const Papers = lazy(async () => (await import("../paper/paper")).Papers);

/** The place for the inputs: what goes where, whether it fits, what is wrong, and the sheet for the console. */
export const PatchScreen = () => {
  const { monitor } = current.value;
  const { patch } = figures.value;
  const { tone, says } = headline(patch, monitor.inputCount);
  const doubts = patch.flags.length;
  return (
    <>
      <Verdict tone={tone} says={says}>
        {doubts === 0 ? "Nothing to look at." : `${formatCount(doubts, "thing")} to look at below.`}{" "}
        <BusFlags />
      </Verdict>
      {patch.usage.over.length > 0 ? <Fits /> : null}
      <div class="two">
        <div class="stack">
          <InputList rows={patch.rows} />
          <div class="fields">
            <NumberField
              rule={RULES.inputs}
              label="Inputs of the monitor system"
              value={monitor.inputCount}
              step={1}
              onValue={(n) => typing(setInputCount(n))}
              onDone={endDrag}
            />
          </div>
          <Unplaced usage={patch.usage} />
        </div>
        <div class="stack">
          {doubts === 0 ? null : <Flags flags={patch.flags} />}
          <Explain about="What the patch is checked for">
            <PatchHelp />
          </Explain>
          <Papers />
        </div>
      </div>
    </>
  );
};
