import "./level-error.css";
import { FOUND_ERRORS, type LevelError } from "../core/headroom/level-errors";
import { formatNumber } from "../core/lib/number";
import { formatLevelError } from "../text/level-error";

/** How far the real level may lie from an estimate, under the name of its row. */
export const LevelErrorText = ({ error }: { error: LevelError }) => (
  <span class="small soft level-error"> {formatLevelError(error)}</span>
);

const EXAMPLE = FOUND_ERRORS.average.known.single;

/** What the error beside an estimated level is, and where it comes from. */
export const LevelErrorHelp = () => (
  <p>
    Error beside an estimate, as {formatLevelError(EXAMPLE)}: where the gated RMS of every channel is right,
    95 of 100 measured levels lie inside it, from {formatNumber(EXAMPLE.below, 1)} dB below the estimate to{" "}
    {formatNumber(EXAMPLE.above, 1)} dB above. Microphones that hear the same drum add up to more than
    uncorrelated signals, two at one drum most of all. Derived from recorded drum hits that a script mixed to
    takes with spill, overheads and a room, and tried on other kits and songs, no published source. For a bus
    with anything but drums it has not been measured.
  </p>
);
