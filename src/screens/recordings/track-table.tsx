import { rmsBy } from "../../core/level/analog";
import { formatClock, formatNumber, formatPercent } from "../../core/lib/number";
import type { TrackPlace } from "../../core/measure/bus-gains";
import type { MeasuredFigures, TrackFigures } from "../../core/measure/figures";
import { BLOCK_STEPS, GATE, STEP } from "../../core/measure/gate";
import { current } from "../../document/store";
import { formatCount } from "../../text/words";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Table } from "../../ui/table";
import { level, placeName } from "./words";

/** A mean beyond this share of full scale is worth a word: −60 dBFS. */
const OFFSET = 0.001;

const trackName = (place: TrackPlace): string => {
  const channel = current.value.channels.find((s) => s.id === place.channel);
  return channel ? placeName(channel, place.line) : "Channel that was removed";
};

const oddities = ({ silent, clipped, offset, unusable }: TrackFigures): string[] => [
  ...(silent ? ["silent"] : []),
  ...(clipped > 0 ? [`clipped ${clipped} ${clipped === 1 ? "time" : "times"}`] : []),
  ...(Math.abs(offset) > OFFSET ? [`DC ${formatNumber(100 * offset, 1)} %`] : []),
  ...(unusable > 0 ? [`${formatCount(unusable, "sample")} unusable`] : []),
];

type Column = readonly [head: string, cell: (track: TrackFigures) => string];

const FIRST: readonly Column[] = [
  ["Gated RMS", (t) => level(t.gatedRms)],
  ["Peak", (t) => level(t.peak)],
  ["True peak", (t) => level(t.truePeak)],
  ["Crest", (t) => level(t.crest)],
];
const MORE: readonly Column[] = [
  ["RMS", (t) => level(t.rms)],
  ["F", (t) => level(t.fast)],
  ["S", (t) => level(t.slow)],
  ["Activity", (t) => formatPercent(t.activity)],
];
const FAULTS: readonly Column[] = [
  ["DC %", (t) => formatNumber(100 * t.offset, 2)],
  ["Clipped", (t) => String(t.clipped)],
  ["Silent", (t) => (t.silent ? "yes" : "no")],
];

interface Tracks {
  readonly figures: MeasuredFigures;
  readonly places: readonly TrackPlace[];
}

const TrackColumns = (props: Tracks & { caption: string; columns: readonly Column[]; words?: boolean }) => (
  <Table kind="figures" caption={props.caption} heads={["Channel", ...props.columns.map(([head]) => head)]}>
    <tbody>
      {props.places.map((place, at) => {
        const track = props.figures.tracks[at];
        if (!track) return null;
        return (
          <tr key={`${place.channel} ${place.line}`}>
            <th scope="row">
              {trackName(place)}
              {props.words
                ? oddities(track).map((odd) => (
                    <span class="small bad" key={odd}>
                      {" "}
                      {odd}
                    </span>
                  ))
                : null}
            </th>
            {props.columns.map(([head, cell]) => (
              <td key={head}>{cell(track)}</td>
            ))}
          </tr>
        );
      })}
    </tbody>
  </Table>
);

/** What each channel measures, by itself. */
export const TrackTable = (tracks: Tracks) => (
  <section class="stack" aria-labelledby="track-figures">
    <h2 id="track-figures">Each channel by itself</h2>
    <TrackColumns
      {...tracks}
      caption={`Measured over ${formatClock(tracks.figures.seconds)}, before any send; dBFS, crest dB`}
      columns={FIRST}
      words
    />
    <Fold look="plain" title="More figures">
      {() => (
        <div class="two">
          <TrackColumns
            {...tracks}
            caption="RMS over the whole length, largest F and S levels, dBFS; activity, % of the time"
            columns={MORE}
          />
          <TrackColumns
            {...tracks}
            caption="Mean in % of full scale, clipped runs, silence"
            columns={FAULTS}
          />
        </div>
      )}
    </Fold>
    <Explain about="What is measured">
      <p>
        Gated RMS: RMS over the gating blocks ({1000 * STEP * BLOCK_STEPS} ms) within {GATE} dB of the loudest
        one, so that pauses do not count. Activity: the share of blocks that are. Levels are RMS by samples: a
        full-scale sine reads {rmsBy("sample").sine}.
      </p>
      <p>
        Peak: highest sample, dBFS. True peak: highest level at or between samples, oversampled four times,
        dBTP, never below the peak. Crest factor: peak minus RMS of the whole length.
      </p>
      <p>
        F and S: largest level with the time weightings of 125 ms and 1 s, without frequency weighting. DC:
        mean of all samples. Clipped: three or more samples in a row at full scale.
      </p>
      <p>
        Source: ITU-R BS.1770 for the true peak and the length of a gating block, IEC 61672-1 for F and S; how
        far the gate opens and what counts as clipped is a design choice.
      </p>
    </Explain>
  </section>
);
