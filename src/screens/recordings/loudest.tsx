import type { MeasuredFigures } from "../../core/measure/figures";
import { STEP } from "../../core/measure/gate";
import { courseLevels, type Maker, makersOf } from "../../core/measure/loudest";
import type { TrackPlace } from "../../core/measure/through";
import { clockSaid, printPercent } from "../../core/number";
import { db } from "../../core/sum/say";
import { Course } from "../../pieces/course";
import { Fold } from "../../pieces/fold";
import { Table } from "../../pieces/table";
import { sourceName } from "../names";

/** Points of a line: one for each three units of the drawing. */
const POINTS = 110;
/** Sources that are named in the sentence. */
const NAMED = 3;

const Makers = ({ makers }: { makers: readonly Maker[] }) => (
  <Table
    kind="figures"
    caption="Who made the loudest moment (energy) and the highest sample of each leg"
    heads={["Source", "Moment", "L peak", "R peak"]}
  >
    <tbody>
      {makers.map((m) => (
        <tr key={m.source}>
          <th scope="row">{sourceName(m.source)}</th>
          <td>{printPercent(m.moment)}</td>
          <td>{printPercent(m.left)}</td>
          <td>{printPercent(m.right)}</td>
        </tr>
      ))}
    </tbody>
  </Table>
);

/**
 * Level over time of both legs, with the loudest moment and who made it.
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
    .map((m) => `${sourceName(m.source)} ${printPercent(m.moment)}`);
  const says = `Loudest at ${clockSaid(loudest.at)} on the ${loudest.leg} leg, ${db(loudest.level)} dBFS: ${named.join(", ")}`;
  const column = (leg: 0 | 1) => courseLevels(course, places.length + leg, POINTS);
  return (
    <section class="stack" aria-labelledby="loudest">
      <h2 id="loudest">{says}</h2>
      {props.stale ? <p class="small bad">From before the change.</p> : null}
      <Course
        says={`Level of both legs over ${clockSaid(seconds)}. ${says}`}
        left={column(0)}
        right={column(1)}
        step={STEP}
        mark={loudest.at / seconds}
        from={clockSaid(0)}
        to={clockSaid(seconds)}
        at={clockSaid(loudest.at)}
      />
      <Fold look="plain" title="Who made it">
        {() => (
          <>
            <p class="soft small">
              Highest sample of the left leg at {clockSaid(mixes.left.peakAt)}, of the right leg at{" "}
              {clockSaid(mixes.right.peakAt)}. Below 0 %: it worked against the others.
            </p>
            <Makers makers={makers} />
          </>
        )}
      </Fold>
    </section>
  );
};
