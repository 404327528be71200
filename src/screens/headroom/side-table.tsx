import type { BusFigures } from "../../core/headroom/figures";
import { type LevelError, levelErrorsOf } from "../../core/headroom/level-errors";
import { recordedAverage } from "../../core/headroom/recorded";
import type { SideFigures } from "../../core/headroom/side";
import { rmsBy } from "../../core/level/analog";
import type { Bus } from "../../core/model/setup";
import { current } from "../../document/store";
import { formatDb } from "../../text/headroom";
import { Explain } from "../../ui/explain";
import { Table } from "../../ui/table";
import { LevelErrorHelp, LevelErrorText } from "../level-error";
import { MeasuredBefore, measuredRms } from "../measured-bus";
import { channelTitle } from "../shown-names";

type FigureOf = (side: SideFigures) => number | null;

/** A figure: its name, how far from it the real one may lie, and what it is on each side. */
interface FigureRow {
  readonly name: string;
  readonly error?: LevelError | undefined;
  readonly cells: readonly (number | null)[];
}

/** Measured leads; the estimate of the same thing stands beside it. */
const rowsOf = (bus: Bus, figures: BusFigures): readonly FigureRow[] => {
  const sides = bus.stereo ? [figures.sides[0], figures.sides[1], figures.mono] : [figures.mono];
  const errors = levelErrorsOf(current.value, bus);
  const measured = recordedAverage(current.value, bus);
  const cells = (pick: FigureOf) => sides.map(pick);
  const average = { error: errors?.average, cells: cells((l) => l.average) };
  const correlated = { name: "Average RMS, correlated", cells: cells((l) => l.correlated) };
  return [
    ...(measured
      ? [
          {
            name: "Average RMS, measured",
            cells: bus.stereo ? [measured.left, measured.right, measured.mono] : [measured.mono],
          },
          { name: "Average RMS, estimated", ...average },
        ]
      : [{ name: "Average RMS", ...average }]),
    ...(correlated.cells.some((cell) => cell !== null) ? [correlated] : []),
    { name: "RMS when everybody plays", error: errors?.level, cells: cells((l) => l.level) },
    { name: "Likely peak", cells: cells((l) => l.likely) },
    { name: "Loudest playable peak", cells: cells((l) => l.playable) },
    { name: "All peaks aligned", cells: cells((l) => l.allAtOnce) },
  ];
};

const shown = (value: number | null): string => (value === null ? "–" : formatDb(value));

const Unknown = ({ figures }: { figures: BusFigures }) => {
  const { level, peak } = figures.unknown;
  if (level.length + peak.length === 0) return null;
  const names = (ids: readonly string[]) => ids.map(channelTitle).join(", ");
  return (
    <p class="notice small">
      Not entered, so left out: {level.length > 0 ? `gated RMS of ${names(level)}` : ""}
      {level.length > 0 && peak.length > 0 ? "; " : ""}
      {peak.length > 0 ? `peak of ${names(peak)}` : ""}.
    </p>
  );
};

/** Both sides and the mono fold, each estimate with its error; what a recording tells leads. */
export const SideTable = ({ bus, figures }: { bus: Bus; figures: BusFigures }) => {
  const heads = bus.stereo ? ["L", "R", "Mono"] : ["Output"];
  const rms = rmsBy(current.value.desk.rms);
  const { measured } = bus;
  const rows = rowsOf(bus, figures);
  return (
    <section class="stack" aria-label="L and R">
      <Table
        caption={
          <>dBFS, after send, pan, polarity and trims{bus.stereo ? "; L and R as the desk has them" : ""}</>
        }
        heads={["Figure", ...heads]}
      >
        <tbody>
          {rows.map(({ name, error, cells }) => (
            <tr key={name}>
              <th scope="row">
                {name}
                {error ? <LevelErrorText error={error} /> : null}
              </th>
              {cells.map((cell, at) => (
                <td key={heads[at]}>{shown(cell)}</td>
              ))}
            </tr>
          ))}
          {bus.stereo && measured
            ? [
                ["Measured RMS", measuredRms(measured)] as const,
                ["Measured peak", measured.peak] as const,
                ["Measured true peak, dBTP", measured.truePeak] as const,
              ].map(([name, [left, right]]) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  <td>{formatDb(left)}</td>
                  <td>{formatDb(right)}</td>
                  <td />
                </tr>
              ))
            : null}
          <tr>
            <th scope="row">Headroom loss</th>
            <td>{shown(figures.loss[0])}</td>
            {bus.stereo ? (
              <>
                <td>{shown(figures.loss[1])}</td>
                <td />
              </>
            ) : null}
          </tr>
        </tbody>
      </Table>
      {bus.stereo ? <MeasuredBefore bus={bus} /> : null}
      <Unknown figures={figures} />
      <Explain about="What these figures are">
        <p>
          Average RMS: 10 log Σ a · 10^(L/10) with gated RMS L and activity a, the share of the time in which
          a channel plays: as entered, else as measured, else typical for its kind (drums: measured takes;
          others: common practice, no source). RMS when everybody plays: the same without activity. Both as
          uncorrelated signals. A full-scale sine reads {rms.sine} rms, as set under Channels.
        </p>
        <LevelErrorHelp />
        <p>
          Average RMS, measured: the measured channels through the sends and pans of now, with their
          correlations; for mono channels that are all in the recording.
        </p>
        <p>Likely peak: loudest contribution plus the root-sum-square of the rest. The working figure.</p>
        <p>
          Loudest playable peak: the largest sum that two hands, the kick foot and the hat foot can make at
          once, with every microphone that hears the whole kit.
        </p>
        <p>All peaks aligned: the plain sum of all peaks. Nothing can be louder.</p>
        <p>Mono: L + R, added channel by channel.</p>
        <p>Headroom loss: what summing and the pan law cost against the loudest single channel.</p>
        <p>
          Source: level arithmetic; likely peak: a working rule tried on measured kits, no source; RMS by{" "}
          {rms.by}.
        </p>
      </Explain>
    </section>
  );
};
