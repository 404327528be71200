import type { InputDevice, InputProblem, InputState } from "../core/hear/input";
import type { Hertz } from "../core/model/units";

/**
 * What an input is asked for: both channels as they are.
 * @param device null is the one that the system takes
 */
export const wishes = (device: string | null): MediaStreamConstraints => ({
  audio: {
    channelCount: 2,
    echoCancellation: false,
    noiseSuppression: false,
    autoGainControl: false,
    ...(device === null ? {} : { deviceId: { exact: device } }),
  },
});

/** Newer browsers name what an echo cancellation takes away; whatever they name, it is on. */
const told = (value: unknown): boolean | null =>
  typeof value === "string" ? true : typeof value === "boolean" ? value : null;

/** What the browser says of an input once it is open. */
export const inputStateOf = (
  track: Pick<MediaStreamTrack, "label" | "getSettings">,
  rate: Hertz,
): InputState => {
  const settings = track.getSettings();
  return {
    device: { id: settings.deviceId ?? "", name: track.label },
    rate,
    processing: {
      echoCancellation: told(settings.echoCancellation),
      noiseSuppression: told(settings.noiseSuppression),
      autoGainControl: told(settings.autoGainControl),
    },
  };
};

/** The audio inputs there are. */
export const inputDevices = async (): Promise<readonly InputDevice[]> =>
  (await navigator.mediaDevices.enumerateDevices())
    .filter(({ kind }) => kind === "audioinput")
    .map(({ deviceId, label }) => ({ id: deviceId, name: label }));

/** What the browser calls it (W3C Media Capture and Streams, getUserMedia), and what it is. */
const BY_NAME: { readonly [name: string]: InputProblem } = {
  NotAllowedError: "refused",
  SecurityError: "refused",
  NotFoundError: "none",
  OverconstrainedError: "none",
  NotReadableError: "busy",
  AbortError: "busy",
};

/** What an error at opening an input means. */
export const inputProblemOf = (error: unknown): InputProblem => {
  const { name } = error as { readonly name?: unknown };
  return BY_NAME[String(name)] ?? "failed";
};
