import { sitsAtKit } from "../../core/model/kinds";
import { facingOf } from "../../core/stereo/geometry";
import { moveListener } from "../../document/commands/listeners";
import { current, endVisit, run } from "../../document/store";
import { type Mark, PlanView } from "../../ui/plan";
import { listenerTitle } from "../shown-names";
import { across, inFront } from "../where";
import { allowed } from "./allowed";

/** The stage from above as FOH has it before it: house left on the left, the audience below. */
export const StagePlan = () => {
  const { kit, listeners } = current.value;
  const marks = listeners.map((l): Mark => {
    const name = listenerTitle(l.id);
    const drummer = sitsAtKit(l);
    return {
      id: l.id,
      name,
      x: drummer ? 0 : l.x,
      y: drummer ? 0 : -l.y,
      size: 0.35,
      facing: 180 + facingOf(kit, l),
      fixed: drummer,
      look: drummer ? "throne" : "person",
      says: drummer
        ? `${name}, at the kit`
        : `${name}: ${across(l.x, "house right", "house left")}, ${inFront(l.y)}`,
    };
  });
  return (
    <PlanView
      label="The stage from above, the audience below"
      marks={marks}
      reach={5}
      middle={[0, -3]}
      step={0.25}
      front={-7}
      onMove={(id, x, y) => {
        if (allowed(x, y)) run(moveListener(id, x, -y));
      }}
      onDone={endVisit}
    >
      <text x="8" y="20" class="plan-word">
        house left
      </text>
      <text x="332" y="20" text-anchor="end" class="plan-word">
        house right
      </text>
    </PlanView>
  );
};
