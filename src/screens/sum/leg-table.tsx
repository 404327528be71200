import { rmsBy } from "../../core/analog";
import type { Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import type { LegFigures } from "../../core/sum/leg";
import { CLOSE_ERROR, HEARD_AGAIN_ERROR, printLevelError } from "../../core/sum/levelerror";
import { db } from "../../core/sum/say";
import { current } from "../../document/store";
import { Explain } from "../../pieces/explain";
import { Table } from "../../pieces/table";
import { sourceName } from "../names";

type FigureOf = (leg: LegFigures) => number | null;

const ROWS: readonly (readonly [name: string, pick: FigureOf])[] = [
  ["Likely peak", (l) => l.likely],
  ["A drummer can play", (l) => l.playable],
  ["All at once", (l) => l.allAtOnce],
];

const shown = (value: number | null): string => (value === null ? "–" : db(value));

const Unknown = ({ figures }: { figures: SumFigures }) => {
  const { level, peak } = figures.unknown;
  if (level.length + peak.length === 0) return null;
  const names = (ids: readonly string[]) => ids.map(sourceName).join(", ");
  return (
    <p class="notice small">
      Left out, because nobody knows them yet: {level.length > 0 ? `level of ${names(level)}` : ""}
      {level.length > 0 && peak.length > 0 ? "; " : ""}
      {peak.length > 0 ? `peak of ${names(peak)}` : ""}.
    </p>
  );
};

/** Both legs and the mono fold in the figures that need no recording, and the correlated level where one is known. */
export const LegTable = ({ sum, figures }: { sum: Sum; figures: SumFigures }) => {
  const legs = sum.stereo ? [figures.legs[0], figures.legs[1], figures.mono] : [figures.mono];
  const heads = sum.stereo ? ["Left", "Right", "Mono"] : ["Leg"];
  const rms = rmsBy(current.value.console.rms);
  const correlated = legs.some((l) => l.correlated !== null);
  const rows: typeof ROWS = [
    [`Level, ${printLevelError(figures.levelError)}`, (l) => l.level],
    ...ROWS,
    ...(correlated ? ([["Level, correlated", (l) => l.correlated]] as typeof ROWS) : []),
  ];
  return (
    <section class="stack" aria-label="Legs">
      <Table
        caption={<>dBFS, after send, pan, polarity and trims{sum.stereo ? "; the console’s own legs" : ""}</>}
        heads={["Figure", ...heads]}
      >
        <tbody>
          {rows.map(([name, pick]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {legs.map((leg, at) => (
                <td key={heads[at]}>{shown(pick(leg))}</td>
              ))}
            </tr>
          ))}
          <tr>
            <th scope="row">Headroom loss</th>
            <td>{shown(figures.loss[0])}</td>
            {sum.stereo ? (
              <>
                <td>{shown(figures.loss[1])}</td>
                <td />
              </>
            ) : null}
          </tr>
        </tbody>
      </Table>
      <Unknown figures={figures} />
      <Explain about="What these figures are">
        <p>
          Level: energy sum, 10 lg Σ 10^(L/10), as if no source had to do with another; good to ±{CLOSE_ERROR}{" "}
          dB. Microphones of the whole kit hear the hits of the close ones again, and the low end adds up:
          beside them the real level may be up to {HEARD_AGAIN_ERROR} dB higher. A full-scale sine reads{" "}
          {rms.sine} rms, as set under Kit.
        </p>
        <p>Likely peak: loudest contribution plus the root-sum-square of the rest. The working figure.</p>
        <p>
          A drummer can play: the largest sum that two hands, the kick foot and the hat foot can make at once,
          with every microphone that hears the whole kit.
        </p>
        <p>All at once: the plain sum of all peaks. Nothing can be louder.</p>
        <p>Mono: both legs in one, added source by source.</p>
        <p>Headroom loss: what summing and the pan law cost against the loudest single source.</p>
        <p>
          Source: level arithmetic; likely peak and what the level is good to: working rules tried on measured
          kits, no source; rms by {rms.by}.
        </p>
      </Explain>
    </section>
  );
};
