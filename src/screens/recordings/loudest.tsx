import { formatClock, formatPercent } from "../../core/lib/number";
import type { TrackPlace } from "../../core/measure/bus-gains";
import type { MeasuredFigures } from "../../core/measure/figures";
import { STEP } from "../../core/measure/gate";
import { courseLevels, type Maker, makersOf } from "../../core/measure/loudest";
import { formatDb } from "../../text/headroom";
import { Course } from "../../ui/course";
import { Fold } from "../../ui/fold";
import { Table } from "../../ui/table";
import { channelTitle } from "../shown-names";

/** Points of a line: one for each three units of the drawing. */
const POINTS = 110;
/** Channels that are named in the sentence. */
const NAMED = 3;

const Makers = ({ makers }: { makers: readonly Maker[] }) => (
  <Table
    kind="figures"
    caption="Share of RMS in the loudest moment, share of the highest sample of L and R"
    heads={["Channel", "RMS", "L peak", "R peak"]}
  >
    <tbody>
      {makers.map((m) => (
        <tr key={m.channel}>
          <th scope="row">{channelTitle(m.channel)}</th>
          <td>{formatPercent(m.moment)}</td>
          <td>{formatPercent(m.left)}</td>
          <td>{formatPercent(m.right)}</td>
        </tr>
      ))}
    </tbody>
  </Table>
);

/**
 * Level over time of both sides, with the loudest moment and who made it.
 * @param stale gains were changed since; the drawing needs the samples to follow
 */
export const LoudestMoment = (props: {
  figures: MeasuredFigures;
  places: readonly TrackPlace[];
  stale: boolean;
}) => {
  const { figures, places } = props;
  const { loudest, course, seconds, mixes } = figures;
  if (!loudest) return null;
  const makers = makersOf(figures, places);
  const named = makers
    .filter((m) => m.moment > 0)
    .slice(0, NAMED)
    .map((m) => `${channelTitle(m.channel)} ${formatPercent(m.moment)}`);
  const says = `Loudest at ${formatClock(loudest.at)} on ${loudest.side === "left" ? "L" : "R"}, ${formatDb(loudest.level)} dBFS: ${named.join(", ")}`;
  const column = (side: 0 | 1) => courseLevels(course, places.length + side, POINTS);
  return (
    <section class="stack" aria-labelledby="loudest">
      <h2 id="loudest">{says}</h2>
      {props.stale ? <p class="small bad">From before the change.</p> : null}
      <Course
        says={`Level of L and R over ${formatClock(seconds)}. ${says}`}
        left={column(0)}
        right={column(1)}
        step={STEP}
        mark={loudest.at / seconds}
        from={formatClock(0)}
        to={formatClock(seconds)}
        at={formatClock(loudest.at)}
      />
      <Fold look="plain" title="Loudest contributors">
        {() => (
          <>
            <p class="soft small">
              Highest sample of L at {formatClock(mixes.left.peakAt)}, of R at{" "}
              {formatClock(mixes.right.peakAt)}. Below 0 %: it cancels part of the others.
            </p>
            <Makers makers={makers} />
          </>
        )}
      </Fold>
    </section>
  );
};
