import type { AllocationChannel, AllocationProblem, BusPin, Pin } from "../../core/allocate/model";
import { busOfId } from "../../core/allocate/model";
import { inputsFrom } from "../../core/allocate/space";
import type { Id } from "../../core/model/setup";
import { allocatedBusName, inputsName } from "../../text/allocate";
import { Pick } from "../../ui/choice";
import { choiceOf, type PinChoice, pinBy } from "./blocks";

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
export const Pins = (props: {
  problem: AllocationProblem;
  onChannelPin: (channel: Id, pin: Pin | null) => void;
  onBusUnpin: (pin: BusPin) => void;
}) => (
  <>
    {props.problem.busPins.map((pin) => (
      <button type="button" key={pin.bus} onClick={() => props.onBusUnpin(pin)}>
        Unpin {allocatedBusName(busOfId(pin.bus))}
      </button>
    ))}
    {props.problem.channels.map((channel) => (
      <Pick
        key={channel.id}
        label={channel.name}
        value={choiceOf(channel.pin)}
        options={optionsOf(channel)}
        onValue={(choice) => props.onChannelPin(channel.id, pinBy(choice, channel.pin))}
      />
    ))}
  </>
);
