import { addBus } from "../../document/commands/buses";
import { LIMITS } from "../../document/limits";
import { current, run } from "../../document/store";
import { full } from "../shown-names";
import { chooseBus } from "../state";

/** Begins another bus and turns every screen to it. */
const add = (stereo: boolean): void => {
  run(addBus(stereo));
  const newest = current.value.buses.at(-1);
  if (newest) chooseBus(newest.id);
};

/** The ways to a bus more: drums, keys, horns, backing voices, a fold-back of everything. */
export const AddBuses = () => {
  const isFull = current.value.buses.length >= LIMITS.buses;
  return (
    <div class="row">
      <button type="button" disabled={isFull} onClick={() => add(true)}>
        Add a stereo bus
      </button>
      <button type="button" disabled={isFull} onClick={() => add(false)}>
        Add a mono bus
      </button>
      {isFull ? <p class="soft small">{full("buses")}.</p> : null}
    </div>
  );
};
