import type { BusFigures } from "../../core/headroom/figures";
import type { SideFigures } from "../../core/headroom/side";
import { rmsBy } from "../../core/level/analog";
import type { Bus } from "../../core/model/setup";
import { current } from "../../document/store";
import { formatDb } from "../../text/headroom";
import { Explain } from "../../ui/explain";
import { Table } from "../../ui/table";
import { MeasuredBefore, measuredRms } from "../measured-bus";
import { channelTitle } from "../shown-names";

type FigureOf = (side: SideFigures) => number | null;

const ROWS: readonly (readonly [name: string, pick: FigureOf])[] = [
  ["Average RMS", (l) => l.average],
  ["RMS when everybody plays", (l) => l.level],
  ["Likely peak", (l) => l.likely],
  ["Loudest playable peak", (l) => l.playable],
  ["All peaks aligned", (l) => l.allAtOnce],
];

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

/** Both sides and the mono fold in the figures that need no recording, and the correlated level where one is known. */
export const SideTable = ({ bus, figures }: { bus: Bus; figures: BusFigures }) => {
  const sides = bus.stereo ? [figures.sides[0], figures.sides[1], figures.mono] : [figures.mono];
  const heads = bus.stereo ? ["L", "R", "Mono"] : ["Output"];
  const rms = rmsBy(current.value.desk.rms);
  const { measured } = bus;
  const correlated = sides.some((l) => l.correlated !== null);
  const rows: typeof ROWS = [
    ...ROWS,
    ...(correlated ? ([["Average RMS, correlated", (l) => l.correlated]] as typeof ROWS) : []),
  ];
  return (
    <section class="stack" aria-label="L and R">
      <Table
        caption={
          <>dBFS, after send, pan, polarity and trims{bus.stereo ? "; L and R as the desk has them" : ""}</>
        }
        heads={["Figure", ...heads]}
      >
        <tbody>
          {rows.map(([name, pick]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {sides.map((side, at) => (
                <td key={heads[at]}>{shown(pick(side))}</td>
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
          a channel plays: as entered, else as measured, else typical for its kind (common practice, no
          source). RMS when everybody plays: the same without activity. Both as uncorrelated signals;
          microphones that hear the same drum add up to more. A full-scale sine reads {rms.sine} rms, as set
          under Channels.
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
