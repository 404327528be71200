import type { Seconds, Sides } from "../core/model/units";
import { onsetsBetween, type Round } from "./round";
import type { ViewGains } from "./views";

/** A round that sounds, each voice into both ears. */
export interface Graph {
  /** What is heard, two channels; to be connected on. */
  readonly output: AudioNode;
  /** Begins the first turn, and plans what begins in the first `AHEAD` seconds of it. */
  readonly start: (at: Seconds) => void;
  /** Plans what begins within `AHEAD` from now; to be called again and again, at least every `AHEAD`. */
  readonly goOn: () => void;
  /**
   * Glides to other gains while the voices go on: no gap, no click.
   * @param over time of the glide; 0 changes at once
   */
  readonly change: (gains: ViewGains, at: Seconds, over: Seconds) => void;
  /** Ends all voices for good. */
  readonly stop: () => void;
}

/** Sounds are planned so long before they begin: longer than a browser lets the timer of a hidden page wait. */
export const AHEAD: Seconds = 4;

/** One sound, from when it is planned until it has ended. */
interface Sounding {
  readonly voice: number;
  readonly source: AudioBufferSourceNode;
  readonly sides: Sides<GainNode>;
}

/**
 * Builds the sounding part. Only what sounds, or will within `AHEAD`, takes memory and time: a channel and two gains for
 * each sound, and its samples once, however many voices share them.
 */
export const buildGraph = (context: BaseAudioContext, round: Round, first: ViewGains): Graph => {
  const { voices, rate } = round;
  const ears = context.createChannelMerger(2);
  const buffers = new Map<Float32Array, AudioBuffer>();
  const sounding = new Set<Sounding>();
  let gains = first;
  let began: Seconds = 0;
  /** Frames of the round that are planned. */
  let planned = 0;

  const bufferOf = (samples: Float32Array<ArrayBuffer>): AudioBuffer => {
    const made = buffers.get(samples) ?? context.createBuffer(1, samples.length, rate);
    if (!buffers.has(samples)) made.copyToChannel(samples, 0);
    buffers.set(samples, made);
    return made;
  };

  const letGo = (one: Sounding): void => {
    one.source.disconnect();
    for (const side of one.sides) side.disconnect();
    sounding.delete(one);
  };

  const plan = (voice: number, at: Seconds): void => {
    const samples = voices[voice]?.samples;
    const [left, right] = gains[voice] ?? [0, 0];
    if (!samples?.length) return;
    const source = new AudioBufferSourceNode(context, { buffer: bufferOf(samples) });
    const sides = [new GainNode(context, { gain: left }), new GainNode(context, { gain: right })] as const;
    sides.forEach((side, ear) => {
      source.connect(side).connect(ears, 0, ear);
    });
    const one = { voice, source, sides };
    sounding.add(one);
    source.onended = () => letGo(one);
    source.start(at);
  };

  const goOn = (): void => {
    const now = Math.max(0, context.currentTime - began);
    const until = Math.ceil((now + AHEAD) * rate);
    // What was missed, as by a phone that slept, would come all at once.
    const from = Math.max(planned, Math.floor(now * rate));
    for (const { voice, frame } of onsetsBetween(round, from, until)) plan(voice, began + frame / rate);
    planned = Math.max(planned, until);
  };

  return {
    output: ears,
    start: (at) => {
      began = at;
      goOn();
    },
    goOn,
    change: (next, at, over) => {
      gains = next;
      for (const { voice, sides } of sounding)
        sides.forEach(({ gain }, ear) => {
          gain.cancelScheduledValues(at);
          gain.setValueAtTime(gain.value, at);
          gain.linearRampToValueAtTime(next[voice]?.[ear] ?? 0, at + over);
        });
    },
    stop: () => {
      for (const one of sounding) {
        one.source.onended = null;
        one.source.stop();
        letGo(one);
      }
      ears.disconnect();
    },
  };
};
