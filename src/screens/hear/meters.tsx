import "./hear.css";
import { exchangedLike } from "../../core/hear/bus-sides";
import type { SideReading } from "../../core/hear/pair";
import { convertRms, rmsBy } from "../../core/level/analog";
import { formatNumber, formatSigned } from "../../core/lib/number";
import { keptLevel } from "../../core/measure/range";
import type { Bus, BusMeasurement, Listener } from "../../core/model/setup";
import type { Db, Seconds, Sides } from "../../core/model/units";
import { keepMeasuredBus } from "../../document/commands/measured-bus";
import { current, figures, readOnly } from "../../document/store";
import { formatDb } from "../../text/headroom";
import { busName } from "../../text/names";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { LevelBars } from "../../ui/level-bars";
import { Table } from "../../ui/table";
import { runWithWord } from "../act";
import { MeasuredBefore } from "../measured-bus";
import { fedFrom, reading, resetMeters } from "./session";

const rms = (level: Db): string => formatDb(convertRms(level, "sample", current.value.desk.rms));

const ROWS: readonly (readonly [name: string, shown: (side: SideReading) => string])[] = [
  ["RMS", (side) => rms(side.rms)],
  ["Peak", (side) => formatDb(side.peak)],
  ["Average RMS", (side) => rms(side.meanRms)],
  ["Highest RMS", (side) => rms(side.maxRms)],
  ["Highest peak", (side) => formatDb(side.maxPeak)],
  ["Highest true peak, dBTP", (side) => formatDb(side.maxTruePeak)],
  ["Times clipped", (side) => String(side.clipped)],
];

const shownOr = (value: Db | null): string => (value === null ? "–" : formatDb(value));

interface Of {
  readonly bus: Bus;
  readonly listener: Listener;
}

/** What the plan says of the same two sides. */
const Planned = ({ bus, listener }: Of) => {
  const planned = figures.value.buses.get(bus.id)?.sides;
  const sides = planned && exchangedLike(current.value, bus, listener, fedFrom.value, planned);
  if (!sides) return null;
  return (
    <tbody>
      <tr>
        <th scope="row">{busName(bus)} as planned: average RMS</th>
        {sides.map((side, at) => (
          <td key={at}>{shownOr(side.average)}</td>
        ))}
      </tr>
      <tr>
        <th scope="row">{busName(bus)} as planned: likely peak</th>
        {sides.map((side, at) => (
          <td key={at}>{shownOr(side.likely)}</td>
        ))}
      </tr>
    </tbody>
  );
};

const Now = () => {
  const read = reading.value;
  if (!read) return <tbody />;
  const { sides, difference, correlation } = read;
  return (
    <tbody>
      {ROWS.map(([name, shown]) => (
        <tr key={name}>
          <th scope="row">{name}</th>
          <td>{shown(sides[0])}</td>
          <td>{shown(sides[1])}</td>
        </tr>
      ))}
      <tr>
        <th scope="row">R − L, dB</th>
        <td colSpan={2}>{formatSigned(difference, 1)}</td>
      </tr>
      <tr>
        <th scope="row">Correlation</th>
        <td colSpan={2}>{correlation === null ? "–" : formatNumber(correlation, 2)}</td>
      </tr>
    </tbody>
  );
};

/** Shorter than this tells no average. A design choice. */
const LEAST: Seconds = 5;

/** What the meters hold as the levels of the bus; null where they are none, or too short. */
const measuredNow = ({ bus, listener }: Of): Omit<BusMeasurement, "at"> | null => {
  const read = reading.value;
  if (!read || read.seconds < LEAST || read.kind === "identical") return null;
  const from = fedFrom.value;
  const sides = exchangedLike(current.value, bus, listener, from, read.sides);
  if (!sides?.some(({ maxPeak }) => Number.isFinite(maxPeak))) return null;
  const each = (of: (side: SideReading) => Db): Sides<Db> => [
    keptLevel(of(sides[0])),
    keptLevel(of(sides[1])),
  ];
  return {
    from,
    seconds: Math.round(read.seconds),
    rms: each((side) => side.meanRms),
    peak: each((side) => side.maxPeak),
    truePeak: each((side) => side.maxTruePeak),
  };
};

/** Keeps what the meters hold with the bus. */
const Save = (of: Of) => {
  const now = measuredNow(of);
  const { bus } = of;
  return (
    <>
      <div class="row">
        <button type="button" onClick={resetMeters}>
          Reset
        </button>
        <button
          type="button"
          disabled={!now || readOnly.value}
          onClick={() => {
            if (!now) return;
            runWithWord(
              keepMeasuredBus(bus.id, { at: new Date().toISOString(), ...now }),
              `Measured levels of ${busName(bus)} saved: Headroom shows them`,
            );
          }}
        >
          Save as measured
        </button>
      </div>
      <p class="soft small">
        Saves average RMS, highest peak and true peak since Reset, with the date, beside the plan of{" "}
        {busName(bus)}. {now ? "" : `Play for ${LEAST} s at least.`}
      </p>
      <MeasuredBefore bus={bus} />
    </>
  );
};

const Bars = () => {
  const sides = reading.value?.sides;
  if (!sides) return null;
  return (
    <LevelBars
      bars={sides.map((side, at) => ({
        name: at === 0 ? "L" : "R",
        level: side.rms,
        held: side.maxPeak,
        isOver: side.clipped > 0,
      }))}
    />
  );
};

const MeterHelp = () => {
  const { sine, by } = rmsBy(current.value.desk.rms);
  return (
    <>
      <p>
        RMS: F (fast) time weighting, 125 ms; a full-scale sine reads {sine}, as set under Channels. Peak:
        largest sample of the last half second. Average RMS and highest: since the input was opened, or since
        Reset. The bar shows RMS, its mark the highest peak, from −60 to 0 dBFS.
      </p>
      <p>
        Levels are those of this input. The gain between the desk and this input is not known, so they stand
        beside the plan and are not compared with it; R − L, and peak over RMS, do not depend on that gain.
      </p>
      <p>
        R − L and correlation: over the last second. Times clipped: three or more samples in a row at full
        scale.
      </p>
      <p>
        Source: IEC 61672-1 for F time weighting; ITU-R BS.1770 for the true peak; rms by {by}; when a side
        has clipped is a design choice.
      </p>
    </>
  );
};

/**
 * What the input measures on both sides, several times a second; not read out by itself.
 * @param bus whose plan stands beside it, as the listener's mixer or its outputs bring it
 */
export const Meters = ({ bus, listener }: { bus: Bus | undefined; listener: Listener }) => (
  <section class="stack" aria-label="Meters">
    <Bars />
    <Fold title="Meters of L and R" look="plain">
      {() => (
        <>
          <Table kind="figures" caption="dBFS at this input" heads={["Figure", "L", "R"]}>
            <Now />
            {bus?.stereo ? <Planned bus={bus} listener={listener} /> : null}
          </Table>
          {bus?.stereo && !listener.mono ? (
            <Save bus={bus} listener={listener} />
          ) : (
            <div class="row">
              <button type="button" onClick={resetMeters}>
                Reset
              </button>
            </div>
          )}
          <Explain about="What the meters show">
            <MeterHelp />
          </Explain>
        </>
      )}
    </Fold>
  </section>
);
