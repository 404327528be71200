import { openDirectOuts } from "../../core/headroom/open-direct-outs";
import { setInputCount } from "../../document/commands/inputs";
import { current, endVisit, figures } from "../../document/store";
import { describePatch } from "../../text/patch";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";
import { NumberField } from "../../ui/number-field";
import { Verdict } from "../../ui/verdict";
import { typing } from "../act";
import { BusFlags, shortBuses } from "../headroom/issues";
import { patchNow } from "../patch-figures";
import { RULES } from "../rules";
import { InputList } from "./input-list";
import { Unplaced } from "./unassigned";

const PatchHelp = lazy(async () => (await import("./help")).PatchHelp);
const Issues = lazy(async () => (await import("./issues")).Issues);
const WaysToFree = lazy(async () => (await import("./free-inputs")).WaysToFree);
const Papers = lazy(async () => (await import("../paper/paper")).Papers);

/** The place for the inputs: what goes where, whether it fits, what is wrong, and the sheet for the console. */
export const PatchScreen = () => {
  const { monitor } = current.value;
  const patch = patchNow.value;
  const { over, underTarget } = openDirectOuts(figures.value.directOuts);
  const short = { buses: shortBuses().length, directOuts: over + underTarget };
  const { tone, says, more } = describePatch(patch, monitor.inputCount, short);
  return (
    <>
      <Verdict tone={tone} says={says}>
        {more} <BusFlags />
        {short.directOuts > 0 ? <a href="#headroom"> Direct outs under Headroom.</a> : null}
      </Verdict>
      {patch.usage.tooMany > 0 ? <WaysToFree /> : null}
      <div class="two">
        <div class="stack">
          <p>
            <a href="#decide">Decide what goes where</a> · <a href="#desk">What to set at the desk</a> ·{" "}
            <a href="#trace">Trace a fault</a>
          </p>
          <InputList rows={patch.rows} />
          <div class="fields">
            <NumberField
              rule={RULES.inputs}
              label="Monitor inputs"
              value={monitor.inputCount}
              step={1}
              onValue={(n) => typing(setInputCount(n))}
              onDone={endVisit}
            />
          </div>
          <Unplaced usage={patch.usage} />
        </div>
        <div class="stack">
          {patch.issues.length === 0 ? null : <Issues issues={patch.issues} />}
          <Explain about="What the patch is checked for">
            <PatchHelp />
          </Explain>
          <Papers />
        </div>
      </div>
    </>
  );
};
