import type { InputDevice, InputEnd, InputProblem, InputState } from "../core/hear/input";
import { type Result, refused } from "../core/lib/result";
import type { TapBegin } from "./block";
import { inputDevices, inputProblemOf, inputStateOf, wishes } from "./device";
import type { EarBegin, EarNews, EarOrder } from "./protocol";
import tapUrl from "./worklet/tap?worker&url";

/** What is told of an input while it is open. */
export interface InputHooks {
  /** What was heard, several times a second. */
  readonly heard: (news: EarNews) => void;
  /** The inputs there are: once, and whenever one comes or goes. */
  readonly devices: (all: readonly InputDevice[]) => void;
  /** The system has silenced the input, or gives it again. */
  readonly silenced: (is: boolean) => void;
  /** It was closed, by nobody here. */
  readonly ended: (why: InputEnd) => void;
}

/** An input that is open. */
export interface LiveInput {
  readonly state: InputState;
  /** Tells what measures. */
  readonly order: (order: EarOrder) => void;
}

type Keep = (undo: () => void) => void;

const makeWorker = (): Worker =>
  new Worker(new URL("./worker/worker.ts", import.meta.url), { type: "module" });

/** Calls on an event for as long as the input is open. */
const follow = (keep: Keep, on: EventTarget, name: string, call: () => void): void => {
  on.addEventListener(name, call);
  keep(() => on.removeEventListener(name, call));
};

const openTrack = async (device: string | null, keep: Keep) => {
  const stream = await navigator.mediaDevices.getUserMedia(wishes(device));
  keep(() => {
    for (const track of stream.getTracks()) track.stop();
  });
  return { stream, track: stream.getAudioTracks()[0] as MediaStreamTrack };
};

/** Leads a stream through the worklet to a worker of its own, past the page. */
const lead = async (
  stream: MediaStream,
  context: AudioContext,
  keep: Keep,
  heard: InputHooks["heard"],
  fail: () => void,
): Promise<Worker> => {
  await context.audioWorklet.addModule(tapUrl);
  const worker = makeWorker();
  keep(() => worker.terminate());
  worker.onmessage = ({ data }: MessageEvent<EarNews>) => heard(data);
  worker.onerror = fail;
  const { port1, port2 } = new MessageChannel();
  worker.postMessage({ kind: "begin", rate: context.sampleRate, line: port1 } satisfies EarBegin, [port1]);
  const tap = new AudioWorkletNode(context, "tap", { outputChannelCount: [1] });
  tap.onprocessorerror = fail;
  tap.port.postMessage({ line: port2 } satisfies TapBegin, [port2]);
  // What leads nowhere may not be run; the tap itself gives silence.
  new MediaStreamAudioSourceNode(context, { mediaStream: stream }).connect(tap).connect(context.destination);
  return worker;
};

/**
 * Opens an audio input. What it brings goes to the meters and nowhere else, and nothing of it is kept. Call it from a
 * tap. It closes by itself when it is unplugged and when the page is hidden.
 * @param device null is the one that the system takes
 * @param signal closes it, or what has come of it so far
 * @returns null where it was closed before it was open
 */
export const openLiveInput = async (
  device: string | null,
  { heard, devices, silenced, ended }: InputHooks,
  signal: AbortSignal,
): Promise<Result<{ readonly input: LiveInput }, InputProblem> | null> => {
  if (!globalThis.isSecureContext) return refused("insecure");
  if (!navigator.mediaDevices?.getUserMedia || typeof AudioWorkletNode === "undefined")
    return refused("unable");
  const undo: (() => void)[] = [];
  const keep: Keep = (step) => void undo.push(step);
  const close = (): void => {
    for (const step of undo.splice(0).reverse()) step();
  };
  const end = (why: InputEnd): void => {
    if (undo.length === 0) return;
    close();
    ended(why);
  };
  signal.addEventListener("abort", close);
  try {
    // Made before anything is waited for: a browser lets it run from a tap only.
    const context = new AudioContext();
    keep(() => void context.close());
    void context.resume();
    const { stream, track } = await openTrack(device, keep);
    const worker = await lead(stream, context, keep, heard, () => end("failed"));
    const state = inputStateOf(track, context.sampleRate);
    const list = async (): Promise<void> => {
      const all = await inputDevices();
      if (undo.length === 0) return;
      devices(all);
      // Not every browser ends the track of what was unplugged.
      if (state.device.id !== "" && !all.some(({ id }) => id === state.device.id)) end("unplugged");
    };
    follow(keep, track, "ended", () => end("unplugged"));
    follow(keep, track, "mute", () => silenced(true));
    follow(keep, track, "unmute", () => silenced(false));
    follow(keep, document, "visibilitychange", () => {
      if (document.visibilityState === "hidden") end("hidden");
    });
    follow(keep, navigator.mediaDevices, "devicechange", () => void list());
    if (signal.aborted) {
      close();
      return null;
    }
    void list();
    return { ok: true, input: { state, order: (order) => worker.postMessage(order) } };
  } catch (error) {
    close();
    return signal.aborted ? null : refused(inputProblemOf(error));
  }
};
