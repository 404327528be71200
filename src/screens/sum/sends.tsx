import { sumCalled } from "../../core/called";
import type { Id, Sum } from "../../core/setup";
import { setSend } from "../../document/commands/sums";
import { current, endDrag, run } from "../../document/store";
import { Tick } from "../../pieces/choice";
import { Fold } from "../../pieces/fold";
import { NumberField } from "../../pieces/number-field";
import { typing } from "../act";
import { sourceName } from "../names";
import { RULES } from "../rules";

/** The other sums that a source goes into as well. */
const elsewhere = (source: Id, sum: Id): string => {
  const names = current.value.sums
    .filter((s) => s.id !== sum && s.sends.some((send) => send.source === source))
    .map(sumCalled);
  return names.length === 0 ? "" : `also in ${names.join(", ")}`;
};

/** Which sources go into a sum, and how loud: the sends on one page. */
export const Sends = ({ sum }: { sum: Sum }) => {
  const name = sumCalled(sum);
  return (
    <Fold title={`What goes into ${name}`} open={sum.sends.length === 0}>
      {() => (
        <>
          {sum.sends.length === 0 ? null : (
            <div class="fields">
              {sum.sends.map(({ source, level }) => (
                <NumberField
                  key={source}
                  rule={RULES.send}
                  label={`Send of ${sourceName(source)}`}
                  value={level}
                  step={1}
                  onValue={(to) => typing(setSend(sum.id, source, { level: to }))}
                  onEmpty={() => typing(setSend(sum.id, source, { level: null }))}
                  onDone={endDrag}
                />
              ))}
            </div>
          )}
          <fieldset>
            <legend class="soft small">Sources in {name}; a source may be in several sums</legend>
            <div class="fields">
              {current.value.sources.map(({ id }) => {
                const also = elsewhere(id, sum.id);
                return (
                  <Tick
                    key={id}
                    label={
                      <>
                        {sourceName(id)}
                        {also === "" ? null : <span class="small soft"> {also}</span>}
                      </>
                    }
                    value={sum.sends.some((s) => s.source === id)}
                    onValue={(on) => run(setSend(sum.id, id, on ? {} : null))}
                  />
                );
              })}
            </div>
          </fieldset>
        </>
      )}
    </Fold>
  );
};
