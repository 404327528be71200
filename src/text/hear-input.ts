import type { UncountedHit } from "../core/hear/hit";
import type { InputDevice, InputEnd, InputProblem, InputState, Processing } from "../core/hear/input";
import type { InputFault } from "../core/hear/input-fault";
import { keysOf } from "../core/lib/keys";
import { formatEntry, formatSigned } from "../core/lib/number";
import type { Db } from "../core/model/units";
import type { Statement } from "./statement";
import { capitalised, formatList } from "./words";

/** The one table of what is said where there is no input: what is so, then what to do. */
const TROUBLE: { readonly [trouble in InputProblem | InputEnd]: string } = {
  unable: "This browser cannot open an audio input. Use another browser, or check by ear.",
  insecure: "An audio input opens only over https. Open Hatside at an https address, or check by ear.",
  refused:
    "The browser does not let Hatside use an audio input. Allow the microphone for this site in the browser’s settings, then open the input again.",
  none: "No audio input was found. Plug in an interface with two channels, then open the input again.",
  busy: "The input is in use or does not answer. Close other apps that record, then open it again.",
  failed: "Measuring the input has failed. Open it again; if that does not help, reload the page.",
  unplugged: "The input was unplugged, so it is closed. Plug it in and open it again.",
  hidden: "Hatside was in the background, so the input was closed. Open it again.",
};

/** Why there is no input, and what to do about it. */
export const describeTrouble = (trouble: InputProblem | InputEnd): string => TROUBLE[trouble];

const PROCESSING: { readonly [name in Processing]: string } = {
  echoCancellation: "echo cancellation",
  noiseSuppression: "noise suppression",
  autoGainControl: "automatic gain control",
};

/** What the system does to the signal, as it really is; `isClean` where it does nothing. */
export const describeProcessing = ({
  processing,
}: Pick<InputState, "processing">): { readonly says: string; readonly isClean: boolean } => {
  const those = (state: boolean | null): string =>
    formatList(keysOf(PROCESSING).flatMap((name) => (processing[name] === state ? [PROCESSING[name]] : [])));
  const [on, unknown] = [those(true), those(null)];
  if (on !== "")
    return {
      says: `The system applies ${on}, though Hatside asked it not to. This alters levels. Turn that off in the system settings, or use another input.`,
      isClean: false,
    };
  if (unknown !== "")
    return { says: `The browser does not say whether it applies ${unknown}.`, isClean: true };
  return { says: `${capitalised(those(false))} are off.`, isClean: true };
};

/** The sample rate that an input is measured at. */
export const formatRate = ({ rate }: Pick<InputState, "rate">): string => `${formatEntry(rate / 1000)} kHz`;

const FAULT: { readonly [fault in InputFault]: Statement } = {
  "one-channel": {
    tone: "wrong",
    says: "This input has one channel",
    more: "L and R cannot be told apart. Choose an interface with two channels.",
  },
  identical: {
    tone: "wrong",
    says: "Both channels are identical",
    more: "This is one microphone on two channels, or a mono source. L and R cannot be told apart. Choose an interface with two channels.",
  },
  muted: {
    tone: "wrong",
    says: "The system has muted the input",
    more: "Unmute it in the system settings.",
  },
  silent: {
    tone: "care",
    says: "No signal",
    more: "Turn up the output that feeds the interface, then the gain of the interface.",
  },
  overload: {
    tone: "wrong",
    says: "The input clips",
    more: "Turn down the gain of the interface or the output that feeds it.",
  },
};

/** The same in words, with what to do. */
export const describeInputFault = (fault: InputFault): Statement => FAULT[fault];

/** Name of an input in a list; by its place from 0 where the system gives it none. */
export const formatDevice = ({ name }: Pick<InputDevice, "name">, at: number): string =>
  name === "" ? `Input ${at + 1}` : name;

/** R − L, dB: "+6.0", "L only". */
export const formatRightLessLeft = (difference: Db): string => {
  if (Number.isFinite(difference)) return formatSigned(difference, 1);
  return difference > 0 ? "R only" : "L only";
};

/** R − L in a sentence: "R − L +6.0 dB", "L only". */
export const formatSideDifference = (difference: Db): string => {
  const figure = formatRightLessLeft(difference);
  return Number.isFinite(difference) ? `R − L ${figure} dB` : figure;
};

const REFUSAL: { readonly [why in UncountedHit]: string } = {
  double: "Those were two hits. Hit once.",
  clipped: "That hit clipped. Turn down the gain of the interface, and hit again.",
  early: "One hit came too soon and did not count.",
};

/** Why a hit does not count, and what to do. */
export const describeRefusal = (why: UncountedHit): string => REFUSAL[why];
