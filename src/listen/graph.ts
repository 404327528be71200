import type { Hertz, Seconds, Sides } from "../core/model/units";
import type { ViewGains } from "./views";

/** Voices going round together, each into both ears. */
export interface Graph {
  /** What is heard, two channels; to be connected on. */
  readonly output: AudioNode;
  /** Begins all voices at one time. */
  readonly start: (at: Seconds) => void;
  /**
   * Glides to other gains while the voices go on: no gap, no click.
   * @param over time of the glide; 0 changes at once
   */
  readonly change: (gains: ViewGains, at: Seconds, over: Seconds) => void;
  /** Ends all voices for good. */
  readonly stop: () => void;
}

const bufferOf = (
  context: BaseAudioContext,
  samples: Float32Array<ArrayBuffer>,
  rate: Hertz,
): AudioBuffer => {
  const buffer = context.createBuffer(1, samples.length, rate);
  buffer.copyToChannel(samples, 0);
  return buffer;
};

/**
 * Builds the sounding part: for every voice a loop and two gains.
 * @param voices samples of each voice, all equally long, so that the loops stay together
 * @param rate of the samples; the context brings them to its own
 */
export const buildGraph = (
  context: BaseAudioContext,
  voices: readonly Float32Array[],
  rate: Hertz,
  gains: ViewGains,
): Graph => {
  const ears = context.createChannelMerger(2);
  const built = voices.map((samples, i) => {
    const [left, right]: Sides = gains[i] ?? [0, 0];
    const source = new AudioBufferSourceNode(context, {
      buffer: bufferOf(context, Float32Array.from(samples), rate),
      loop: true,
    });
    const sides = [new GainNode(context, { gain: left }), new GainNode(context, { gain: right })] as const;
    sides.forEach((side, ear) => {
      source.connect(side).connect(ears, 0, ear);
    });
    return { source, sides };
  });
  return {
    output: ears,
    start: (at) => {
      for (const { source } of built) source.start(at);
    },
    change: (next, at, over) => {
      built.forEach(({ sides }, i) => {
        sides.forEach((side, ear) => {
          const gain = side.gain;
          gain.cancelScheduledValues(at);
          gain.setValueAtTime(gain.value, at);
          gain.linearRampToValueAtTime(next[i]?.[ear] ?? 0, at + over);
        });
      });
    },
    stop: () => {
      for (const { source, sides } of built) {
        source.stop();
        source.disconnect();
        for (const side of sides) side.disconnect();
      }
      ears.disconnect();
    },
  };
};
