import { convertRms } from "../core/level/analog";
import { once } from "../core/lib/memo";
import type { Bus, BusMeasurement } from "../core/model/setup";
import type { Db, Sides } from "../core/model/units";
import { forgetMeasuredBus } from "../document/commands/measured-bus";
import { current, figures, readOnly } from "../document/store";
import { describeMeasured } from "../text/measured-bus";
import { Sentences } from "../ui/sentences";
import { runWithWord } from "./act";

// The first format costs a slow phone a tenth of a second: made when it is wanted.
const when = once(() => new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" }));

/** Measured rms of each side in the console's convention. */
export const measuredRms = ({ rms }: BusMeasurement): Sides<Db> => {
  const shown = (level: Db): Db => convertRms(level, "sample", current.value.desk.rms);
  return [shown(rms[0]), shown(rms[1])];
};

/** When and where a bus was measured at an audio input, what of that can be compared, and a way to be rid of it. */
export const MeasuredBefore = ({ bus }: { bus: Bus }) => {
  const { measured } = bus;
  const planned = figures.value.buses.get(bus.id)?.sides;
  if (!measured || !planned) return null;
  const [l, r] = planned;
  const says = describeMeasured(measured, when().format(new Date(measured.at)), measuredRms(measured), {
    average: [l.average, r.average],
    likely: [l.likely, r.likely],
  });
  return (
    <>
      <Sentences says={says} />
      <div class="row">
        <button
          type="button"
          disabled={readOnly.value}
          onClick={() => runWithWord(forgetMeasuredBus(bus.id), "Measured levels removed")}
        >
          Remove measured levels
        </button>
      </div>
    </>
  );
};
