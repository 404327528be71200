import { useSignal } from "@preact/signals";
import { Choice } from "../../ui/choice";
import { KitPlan } from "./kit-plan";
import { PieceTable } from "./piece-table";
import { StagePlan } from "./stage-plan";
import { ThroneFields } from "./throne-fields";

/** Where everything and everybody stands: the kit from above, and the stage. */
export const Plans = () => {
  const view = useSignal<"drummer" | "house" | "stage">("drummer");
  return (
    <section class="stack" aria-labelledby="plans">
      <h2 id="plans">Where it stands</h2>
      <Choice
        label="Seen from above"
        hideLabel
        value={view.value}
        options={[
          ["drummer", "As the drummer sees it"],
          ["house", "As FOH sees it"],
          ["stage", "The stage"],
        ]}
        onValue={(v) => {
          view.value = v;
        }}
      />
      <div class="two">
        {view.value === "stage" ? <StagePlan /> : <KitPlan view={view.value} />}
        <div class="stack">
          <ThroneFields />
          <PieceTable />
        </div>
      </div>
    </section>
  );
};
