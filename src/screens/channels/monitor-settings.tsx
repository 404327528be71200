import type { Link, MonitorSystem } from "../../core/model/setup";
import { editMonitorSystem } from "../../document/commands/settings";
import { current, run } from "../../document/store";
import { Choice, Tick } from "../../ui/choice";
import { Fold } from "../../ui/fold";

const LINKS: readonly (readonly [Link, string])[] = [
  ["analog", "Analog"],
  ["digital", "Digital"],
];

/** How the desk reaches the personal monitor system, and what its mixers can do. */
export const MonitorSettings = () => {
  const { link, trimBeforeInput, mixers } = current.value.monitor;
  const withMixers = (patch: Partial<MonitorSystem["mixers"]>) =>
    run(editMonitorSystem({ mixers: { ...mixers, ...patch } }));
  return (
    <Fold title="The monitor system: link, trims, mixers">
      {() => (
        <>
          <Choice
            label="Link to the monitor system"
            value={link}
            options={LINKS}
            onValue={(to) => run(editMonitorSystem({ link: to }))}
          />
          <p class="small soft">
            Analog: converters and cables, so output level, pad and max input level count, in dBu. Digital:
            both ends at 0 dBFS, no dBu.
          </p>
          <Tick
            label="Input trim before the input stage"
            value={trimBeforeInput}
            onValue={(before) => run(editMonitorSystem({ trimBeforeInput: before }))}
          />
          <p class="small soft">
            On: the trim of a monitor input can keep it from clipping. Off: the input clips first.
          </p>
          <Tick label="Mixers can flip L/R" value={mixers.flip} onValue={(flip) => withMixers({ flip })} />
          <Tick label="Mixers can go mono" value={mixers.mono} onValue={(mono) => withMixers({ mono })} />
        </>
      )}
    </Fold>
  );
};
