import { useSignal } from "@preact/signals";
import { type MeasuredPan, readingsOf } from "../../core/hear/law";
import type { Db, Pan, Sides } from "../../core/model/units";
import { identifyLaw } from "../../core/pan/identify";
import { formatPan, roundPan } from "../../core/pan/notation";
import { current } from "../../document/store";
import { formatDb } from "../../text/headroom";
import { describeIdentified } from "../../text/law-readings";
import { Sentences } from "../../ui/sentences";
import { Table } from "../../ui/table";
import { PanEntry } from "../pan-entry";
import { RankedLaws } from "../ranked-laws";
import { InputPanel } from "./input";
import { fault, measureSteady } from "./session";
import { TestSignal } from "./test-signal";

/** So many pans can be measured. A design choice: two to five tell what there is to tell. */
const MOST = 5;
const UNKNOWN: Sides<Db> = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];

const Measured = ({ all }: { all: readonly MeasuredPan[] }) => {
  const told = identifyLaw(readingsOf(all), (pan) => roundPan(pan, current.value.desk).pan);
  // Before the pan nothing comes to this input.
  const found = told.next === "before pan" ? { ...told, next: null } : told;
  // A silent side is no reading.
  const numbers = all.flatMap((one, at) => readingsOf([one]).map(() => at + 1));
  return (
    <>
      <Table kind="figures" caption="dBFS rms at this input" heads={["Reading", "Pan", "L", "R"]}>
        <tbody>
          {all.map(({ pan, levels }, at) => (
            <tr key={at}>
              <th scope="row">{at + 1}</th>
              <td>{formatPan(pan, current.value.desk)}</td>
              {levels.map((level, side) => (
                <td key={side}>{formatDb(level)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </Table>
      <div role="status">
        <Sentences says={describeIdentified(found, numbers, current.value.desk)} look="notice" />
      </div>
      {numbers.length < 2 ? null : <RankedLaws ranked={found.ranked} />}
    </>
  );
};

/** The pan law by measured levels of L and R at a few pans, in the place of typed ones. */
export const LawByInput = () => {
  const pan = useSignal<Pan>(0);
  const noise = useSignal<Sides<Db>>(UNKNOWN);
  const all = useSignal<readonly MeasuredPan[]>([]);
  const isMeasuring = useSignal(false);
  // At the centre two channels may well be alike.
  const isMono = fault.value === "one-channel";
  const measure = async (then: (levels: Sides<Db>, error: Db) => void, under: Sides<Db>): Promise<void> => {
    isMeasuring.value = true;
    const measured = await measureSteady(under);
    isMeasuring.value = false;
    if (measured) then(measured.levels, measured.error);
  };
  const measureNoise = (): Promise<void> =>
    measure((levels) => {
      noise.value = levels;
    }, UNKNOWN);
  const measurePan = (): Promise<void> =>
    measure((levels, error) => {
      all.value = [...all.value, { pan: pan.value, levels, error }];
    }, noise.value);
  return (
    <div class="stack">
      <p>
        Feed the input from L and R of a stereo bus. Send one channel with a steady tone or pink noise to it,
        and measure it at two to five pans.
      </p>
      <TestSignal to="measure" />
      <InputPanel>
        <PanEntry
          label="Pan at the desk"
          value={pan.value}
          onValue={(to) => {
            pan.value = to;
          }}
          onDone={() => {}}
        />
        <div class="row">
          <button
            type="button"
            class="main"
            disabled={isMeasuring.value || isMono || all.value.length >= MOST}
            onClick={() => void measurePan()}
          >
            Measure at this pan
          </button>
          <button type="button" disabled={isMeasuring.value} onClick={() => void measureNoise()}>
            Measure noise only
          </button>
          <button
            type="button"
            disabled={all.value.length === 0}
            onClick={() => {
              all.value = all.value.slice(0, -1);
            }}
          >
            Remove last reading
          </button>
        </div>
        <p class="soft small" role="status">
          {isMeasuring.value
            ? "Measuring for 3 s …"
            : noise.value === UNKNOWN
              ? "With the channel muted, the noise can be measured first: it is then subtracted."
              : `Noise: L ${formatDb(noise.value[0])}, R ${formatDb(noise.value[1])} dBFS; it is subtracted.`}
        </p>
        {all.value.length === 0 ? null : <Measured all={all.value} />}
      </InputPanel>
    </div>
  );
};
