import { gainOf } from "../core/level/decibels";
import type { Products } from "../core/measure/covariance";
import type { Db, Hertz, Seconds } from "../core/model/units";
import { buildGraph, type Graph } from "./graph";
import { levelled, type ViewName, type Views } from "./views";

/** Level at which everything begins: low, so that the first tap hurts nobody. */
export const FIRST_LEVEL: Db = -30;
/** Range of the level control. */
export const LEVELS: readonly [least: Db, most: Db] = [-60, 0];
/** Glide from one view to another: too short to be heard as a fade, too long to click. */
const GLIDE: Seconds = 0.03;

/** What is to be heard. */
export interface Sounds {
  /** Samples of each voice, all equally long; they go round. */
  readonly voices: readonly Float32Array[];
  readonly rate: Hertz;
  /** Mean products of each two voices. */
  readonly products: Products;
  /** What each view makes of the voices. They are brought to one loudness here. */
  readonly views: Views;
}

/** Plays through the phone's own output. Silent until `play`. */
export interface Player {
  /** Begins, or switches to this view without a gap. Call it from a tap: browsers allow sound from there only. */
  readonly play: (view: ViewName) => Promise<void>;
  /** Other sounds or gains; goes on playing where it plays. */
  readonly load: (sounds: Sounds) => void;
  readonly setLevel: (level: Db) => void;
  readonly stop: () => void;
  /** Ends it and gives the output back. */
  readonly close: () => Promise<void>;
}

/** The output and what plays into it. */
interface Output {
  readonly context: AudioContext;
  readonly master: GainNode;
  graph: Graph | null;
}

const openOutput = (make: () => AudioContext, level: Db): Output => {
  const context = make();
  const master = new GainNode(context, { gain: gainOf(level) });
  master.connect(context.destination);
  return { context, master, graph: null };
};

/**
 * A player for three views of the same sounds.
 * @param make makes the audio context; called at the first `play`, never before
 */
export const newPlayer = (first: Sounds, make: () => AudioContext = () => new AudioContext()): Player => {
  let sounds = first;
  let views = levelled(sounds.views, sounds.products);
  let level = FIRST_LEVEL;
  let output: Output | null = null;
  let playing: ViewName | null = null;

  const begin = (into: Output, view: ViewName): void => {
    into.graph?.stop();
    into.graph = buildGraph(into.context, sounds.voices, sounds.rate, views[view]);
    into.graph.output.connect(into.master);
    into.graph.start(into.context.currentTime + GLIDE);
  };

  const stop = (): void => {
    output?.graph?.stop();
    if (output) output.graph = null;
    playing = null;
  };

  return {
    play: async (view) => {
      output ??= openOutput(make, level);
      if (output.graph) output.graph.change(views[view], output.context.currentTime, GLIDE);
      else begin(output, view);
      playing = view;
      await output.context.resume();
    },
    load: (next) => {
      const same = next.voices === sounds.voices;
      sounds = next;
      views = levelled(next.views, next.products);
      if (!output || !playing) return;
      if (same && output.graph) output.graph.change(views[playing], output.context.currentTime, GLIDE);
      else begin(output, playing);
    },
    setLevel: (next) => {
      level = next;
      output?.master.gain.setTargetAtTime(gainOf(next), output.context.currentTime, GLIDE);
    },
    stop,
    close: async () => {
      stop();
      const { context } = output ?? {};
      output = null;
      await context?.close();
    },
  };
};
