import { setHand, setYaw } from "../../document/commands/kit";
import { current, endVisit, run } from "../../document/store";
import { Choice } from "../../ui/choice";
import { NumberField } from "../../ui/number-field";
import { typing } from "../act";
import { RULES } from "../rules";
import { HANDS } from "../shown-names";

/** Which way the kit is set up and which way the throne is turned. */
export const ThroneFields = () => {
  const { hand, yaw } = current.value.kit;
  return (
    <div class="fields">
      <Choice label="The drummer plays" value={hand} options={HANDS} onValue={(v) => run(setHand(v))} />
      <NumberField
        rule={RULES.degrees}
        label="Throne turned to the drummer’s left"
        value={yaw}
        step={15}
        onValue={(v) => typing(setYaw(v))}
        onDone={endVisit}
      />
    </div>
  );
};
