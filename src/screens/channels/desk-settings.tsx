import { rmsBy } from "../../core/level/analog";
import type { Desk } from "../../core/model/setup";
import { LAWS } from "../../core/pan/laws";
import { editDesk } from "../../document/commands/settings";
import { current, endVisit, run } from "../../document/store";
import { Choice, Pick } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { lazy } from "../../ui/lazy";
import { NumberField } from "../../ui/number-field";
import { typing } from "../act";
import { FindLaw, LawFields } from "../law-fields";
import { RULES } from "../rules";
import { DeskLayout } from "./desk-layout";
import { MonitorSettings } from "./monitor-settings";

const SavedDesks = lazy(async () => (await import("../desks/saved-desks")).SavedDesks);

const Laws = ({ console, edit }: { console: Desk; edit: (patch: Partial<Desk>) => void }) => (
  <>
    <LawFields label="Pan law" />
    <Pick
      label="Stereo channels"
      value={console.stereoLaw}
      options={[
        ["balance-linear", "Balance, linear"],
        ["balance-sine", "Balance, sine"],
        ["pan", "Stereo pan (far side moves across)"],
      ]}
      onValue={(twoChannel) => edit({ stereoLaw: twoChannel })}
    />
  </>
);

const Notation = ({ console, edit }: { console: Desk; edit: (patch: Partial<Desk>) => void }) => (
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
      onValue={(panSteps) => typing(editDesk({ panSteps }))}
      onDone={endVisit}
    />
    <NumberField
      rule={RULES.levelStep}
      value={console.levelStep}
      onValue={(levelStep) => typing(editDesk({ levelStep }))}
      onDone={endVisit}
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
  const { desk: console } = current.value;
  const edit = (patch: Partial<Desk>) => run(editDesk(patch));
  return (
    <>
      <details class="card">
        <summary>Desk: pan law, notation, levels</summary>
        <div class="stack">
          <div class="fields">
            <Laws console={console} edit={edit} />
            <Notation console={console} edit={edit} />
          </div>
          <Explain about="Which law is mine?">
            <p>
              Pan one channel hard to a side, then to the centre, and read the side’s meter: the drop is the
              centre drop. Two laws are called “constant power” and two “−4.5 dB”; they agree at the centre
              and the ends and differ in between. Image compares them.
            </p>
            <p>Source of the law in use: {LAWS[console.law].source}.</p>
          </Explain>
          <FindLaw />
        </div>
      </details>
      <DeskLayout />
      <Fold title="Saved desks">{() => <SavedDesks />}</Fold>
      <MonitorSettings />
    </>
  );
};
