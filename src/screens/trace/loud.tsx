import { arrivalsOf } from "../../core/inputs/arrivals";
import type { Id } from "../../core/model/setup";
import { current } from "../../document/store";
import { describeArrivals, formatArrival } from "../../text/trace";
import { Verdict } from "../../ui/verdict";

/** Every way by which a channel arrives that is too loud for somebody. */
export const TooLoud = ({ channel }: { channel: Id }) => {
  const setup = current.value;
  const arrivals = arrivalsOf(setup, channel);
  const { tone, says, more } = describeArrivals(setup, channel, arrivals);
  return (
    <>
      <Verdict tone={tone} says={says}>
        {more}
      </Verdict>
      {arrivals.length === 0 ? null : (
        <ol class="links">
          {arrivals.map((arrival) => (
            <li key={formatArrival(setup, arrival)} class={arrival.isOn ? "suspect" : "silent"}>
              <b>{formatArrival(setup, arrival)}</b>
              <span>{arrival.isOn ? "on" : "off"}</span>
            </li>
          ))}
        </ol>
      )}
    </>
  );
};
