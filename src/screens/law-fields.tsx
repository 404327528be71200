import type { LawId } from "../core/model/setup";
import { LAWS } from "../core/pan/laws";
import { editDesk } from "../document/commands/settings";
import { current, endVisit, run } from "../document/store";
import { Choice, Pick } from "../ui/choice";
import { Fold } from "../ui/fold";
import { lazy } from "../ui/lazy";
import { NumberField } from "../ui/number-field";
import { typing } from "./act";
import { RULES } from "./rules";

const LawFinder = lazy(async () => (await import("./law-finder")).LawFinder);

const OPTIONS = Object.values(LAWS).map((law) => [law.id, law.name] as const);

/** The console's pan law: which one, its centre attenuation where that is the console's own, and its reference. */
export const LawFields = ({ label }: { label: string }) => {
  const { law, centreDb, reference } = current.value.desk;
  return (
    <>
      <Pick<LawId> label={label} value={law} options={OPTIONS} onValue={(v) => run(editDesk({ law: v }))} />
      {law === "custom" ? (
        <NumberField
          rule={RULES.centre}
          value={centreDb}
          step={0.5}
          onValue={(v) => typing(editDesk({ centreDb: v }))}
          onDone={endVisit}
        />
      ) : null}
      <Choice
        label="Unity"
        value={reference}
        options={[
          ["sides", "Hard-panned"],
          ["centre", "At centre"],
        ]}
        onValue={(v) => run(editDesk({ reference: v }))}
      />
    </>
  );
};

/** Beside the fields: which law the desk has, from its meters. */
export const FindLaw = () => (
  <Fold title="Find the pan law from meter readings" look="plain">
    {() => <LawFinder />}
  </Fold>
);
