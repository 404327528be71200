import type { LawId } from "../core/model/setup";
import { LAWS } from "../core/pan/laws";
import { editDesk } from "../document/commands/settings";
import { current, endDrag, run } from "../document/store";
import { Choice, Pick } from "../ui/choice";
import { NumberField } from "../ui/number-field";
import { typing } from "./act";
import { RULES } from "./rules";

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
          onDone={endDrag}
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
