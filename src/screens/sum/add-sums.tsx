import { addSum } from "../../document/commands/sums";
import { LIMITS } from "../../document/limits";
import { current, run } from "../../document/store";
import { full } from "../names";
import { chooseSum } from "../state";

/** Begins another sum and turns every screen to it. */
const add = (stereo: boolean): void => {
  run(addSum(stereo));
  const newest = current.value.sums.at(-1);
  if (newest) chooseSum(newest.id);
};

/** The ways to a sum more: drums, keys, horns, backing voices, a fold-back of everything. */
export const AddSums = () => {
  const isFull = current.value.sums.length >= LIMITS.sums;
  return (
    <div class="row">
      <button type="button" disabled={isFull} onClick={() => add(true)}>
        Add a pair
      </button>
      <button type="button" disabled={isFull} onClick={() => add(false)}>
        Add a mono sum
      </button>
      {isFull ? <p class="soft small">{full("sums")}.</p> : null}
    </div>
  );
};
