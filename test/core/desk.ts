import type { Desk, MonitorSystem, TapPoint } from "../../src/core/model/setup";
import { BLANK_DESK, BLANK_MONITOR } from "../../src/document/blank";

const TAPS: readonly TapPoint[] = ["pre-hpf", "pre-eq", "pre-fader", "post-fader"];

/** A desk with every ceiling there is: its buses can overload and its mute takes everything. */
export const DESK: Desk = {
  ...BLANK_DESK,
  busOverloads: true,
  muteRule: { preFaderSends: true, directOuts: TAPS },
};

const { link, trimBeforeInput, mixers } = BLANK_MONITOR;

/** What a monitor system has besides its inputs and their ceiling. */
export const MONITOR_REST: Omit<MonitorSystem, "inputCount" | "inputs" | "maxInputDbu"> = {
  link,
  trimBeforeInput,
  mixers,
};
