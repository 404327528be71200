import { rmsBy } from "../../core/analog";
import { LAWS } from "../../core/laws";
import type { Console } from "../../core/setup";
import { editConsole } from "../../document/commands/settings";
import { current, endDrag, run } from "../../document/store";
import { Choice, Pick } from "../../pieces/choice";
import { Explain } from "../../pieces/explain";
import { NumberField } from "../../pieces/number-field";
import { typing } from "../act";
import { LawFields } from "../law-fields";
import { RULES } from "../rules";

const Laws = ({ console, edit }: { console: Console; edit: (patch: Partial<Console>) => void }) => (
  <>
    <LawFields label="Pan law" />
    <Pick
      label="Two-channel sources"
      value={console.twoChannel}
      options={[
        ["balance-linear", "Balance, linear"],
        ["balance-sine", "Balance, sine"],
        ["pan", "Pan (far side moves over)"],
      ]}
      onValue={(twoChannel) => edit({ twoChannel })}
    />
  </>
);

const Notation = ({ console, edit }: { console: Console; edit: (patch: Partial<Console>) => void }) => (
  <>
    <Choice
      label="Pans are shown as"
      value={console.panStyle}
      options={[
        ["steps", "L30 C R30"],
        ["midi", "0–127"],
        ["clock", "Clock"],
      ]}
      onValue={(panStyle) => edit({ panStyle })}
    />
    <NumberField
      rule={RULES.panSteps}
      value={console.panSteps}
      onValue={(panSteps) => typing(editConsole({ panSteps }))}
      onDone={endDrag}
    />
    <NumberField
      rule={RULES.levelStep}
      value={console.levelStep}
      onValue={(levelStep) => typing(editConsole({ levelStep }))}
      onDone={endDrag}
    />
    <Choice
      label="A full-scale sine reads"
      value={console.rms}
      options={(["sample", "aes17"] as const).map((rms) => [rms, `${rmsBy(rms).sine} rms`] as const)}
      onValue={(rms) => edit({ rms })}
    />
  </>
);

/** How this console pans, prints and counts. */
export const ConsoleSettings = () => {
  const { console } = current.value;
  const edit = (patch: Partial<Console>) => run(editConsole(patch));
  return (
    <details class="card">
      <summary>The console: pan law, notation, levels</summary>
      <div class="stack">
        <div class="fields">
          <Laws console={console} edit={edit} />
          <Notation console={console} edit={edit} />
        </div>
        <Explain about="Which law is mine?">
          <p>
            Pan one source hard to a side, then to the centre, and read the leg’s meter: the drop is the
            centre attenuation. Two laws are called “constant power” and two “−4.5 dB”; they agree at the
            centre and the ends and differ between. Image compares them.
          </p>
          <p>Source of the law in force: {LAWS[console.law].source}.</p>
        </Explain>
      </div>
    </details>
  );
};
