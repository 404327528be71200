import type { Source } from "../../core/setup";
import { setSend } from "../../document/commands/sums";
import { endDrag, run } from "../../document/store";
import { Tick } from "../../pieces/choice";
import { NumberField } from "../../pieces/number-field";
import { typing } from "../act";
import { sumName } from "../names";
import { PanEntry } from "../pan-entry";
import { RULES } from "../rules";
import { chosenSum } from "../state";

/** The way of a source into the chosen sum: in or not, how loud, and whether its pan follows the house. */
export const SendFields = ({ source }: { source: Source }) => {
  const sum = chosenSum.value;
  if (!sum) return null;
  const name = sumName(sum.id);
  const send = sum.sends.find((s) => s.source === source.id);
  return (
    <>
      <Tick
        label={`In ${name}`}
        value={send !== undefined}
        onValue={(on) => run(setSend(sum.id, source.id, on ? {} : null))}
      />
      {send ? (
        <NumberField
          rule={RULES.send}
          label={`Send into ${name}`}
          value={send.level}
          step={1}
          onValue={(level) => typing(setSend(sum.id, source.id, { level }))}
          onEmpty={() => typing(setSend(sum.id, source.id, { level: null }))}
          onDone={endDrag}
        />
      ) : null}
      {send && sum.stereo ? (
        <PanEntry
          label={`Pan in ${name}`}
          value={send.pan}
          empty="follows the house"
          onValue={(pan) => typing(setSend(sum.id, source.id, { pan }))}
          onEmpty={() => typing(setSend(sum.id, source.id, { pan: null }))}
          onDone={endDrag}
        />
      ) : null}
    </>
  );
};
