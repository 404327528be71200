import type { Hertz } from "../model/units";

/** Why an audio input could not be opened. */
export type InputProblem =
  /** The browser has no audio inputs for a page. */
  | "unable"
  /** The page did not come over https, without which no browser opens an input. */
  | "insecure"
  /** Nobody allowed it, or the browser may not ask. */
  | "refused"
  /** There is none, or not the one that was asked for. */
  | "none"
  /** Another program holds it, or the system does not give it. */
  | "busy"
  /** What measures could not be started. */
  | "failed";

/** Why an open input was closed, by nobody here. */
export type InputEnd =
  | "unplugged"
  /** The page was out of sight. */
  | "hidden"
  /** What measures has stopped. */
  | "failed";

/** What the system does to a signal unasked. */
export type Processing = "echoCancellation" | "noiseSuppression" | "autoGainControl";

/** An audio input of the device. */
export interface InputDevice {
  readonly id: string;
  /** As the system calls it; "" before anybody was allowed to know. */
  readonly name: string;
}

/** An open input as it really is, which may not be as it was asked for. */
export interface InputState {
  readonly device: InputDevice;
  /** At which it is measured here. */
  readonly rate: Hertz;
  /** What is on; null where the browser does not say. */
  readonly processing: { readonly [name in Processing]: boolean | null };
}
