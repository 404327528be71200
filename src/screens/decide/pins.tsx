import type { AllocationChannel, AllocationProblem } from "../../core/allocate/model";
import { busOfId } from "../../core/allocate/model";
import { inputsFrom } from "../../core/allocate/space";
import { allocatedBusName, inputsName, namesIn } from "../../text/allocate";
import { Pick } from "../../ui/choice";
import { choiceOf, type PinChoice, pinBy } from "./blocks";
import { pinChannel, unpinBus } from "./session";

const optionsOf = ({ width, pin }: AllocationChannel): (readonly [PinChoice, string])[] => [
  ["free", "Not pinned"],
  ["mono", width === 2 ? "Input of its own, mono" : "Input of its own"],
  ...(width === 2 ? ([["stereo", "Inputs of its own, stereo"]] as const) : []),
  ["shared", "Bus of its family"],
  ["fold-back", "Fold-back"],
  ["out", "Left out"],
  ...(pin?.as === "own" && pin.input !== null
    ? ([["placed", inputsName(inputsFrom(pin.input, pin.width))]] as const)
    : []),
];

/** What is decided by hand: a choice a channel, and the buses that are held where they are. */
export const Pins = ({ problem }: { problem: AllocationProblem }) => (
  <>
    {problem.busPins.map((pin) => (
      <button type="button" key={pin.bus} onClick={() => unpinBus(pin)}>
        Unpin {allocatedBusName(busOfId(pin.bus))}
      </button>
    ))}
    <div class="fields">
      {problem.channels.map((channel) => (
        <Pick
          key={channel.id}
          label={namesIn(problem)(channel.id)}
          value={choiceOf(channel.pin)}
          options={optionsOf(channel)}
          onValue={(choice) => pinChannel(channel.id, pinBy(choice, channel.pin))}
        />
      ))}
    </div>
  </>
);
