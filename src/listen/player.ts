import { gainOf } from "../core/level/decibels";
import type { Products } from "../core/measure/covariance";
import type { Db, Seconds } from "../core/model/units";
import { AHEAD, buildGraph, type Graph } from "./graph";
import type { Round } from "./round";
import { levelled, type ViewName, type Views } from "./views";

/** Level at which everything begins: low, so that the first tap hurts nobody. */
export const FIRST_LEVEL: Db = -30;
/** Range of the level control. */
export const LEVELS: readonly [least: Db, most: Db] = [-60, 0];
/** Glide from one view to another: too short to be heard as a fade, too long to click. */
const GLIDE: Seconds = 0.03;

/** How often what comes next is planned, ms: a browser may let it wait for a second in a hidden page. */
const PLAN_EVERY = (1000 * AHEAD) / 4;

/** What is to be heard. */
export interface Sounds {
  readonly round: Round;
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
  playing: { readonly graph: Graph; readonly timer: ReturnType<typeof setInterval> } | null;
}

const openOutput = (make: () => AudioContext, level: Db): Output => {
  const context = make();
  const master = new GainNode(context, { gain: gainOf(level) });
  master.connect(context.destination);
  return { context, master, playing: null };
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
  /** The view that plays. */
  let heard: ViewName | null = null;

  const end = (of: Output | null): void => {
    if (!of?.playing) return;
    clearInterval(of.playing.timer);
    of.playing.graph.stop();
    of.playing = null;
  };

  const begin = (into: Output, view: ViewName): void => {
    end(into);
    const graph = buildGraph(into.context, sounds.round, views[view]);
    graph.output.connect(into.master);
    graph.start(into.context.currentTime + GLIDE);
    into.playing = { graph, timer: setInterval(graph.goOn, PLAN_EVERY) };
  };

  const glide = ({ context, playing }: Output, view: ViewName): void =>
    playing?.graph.change(views[view], context.currentTime, GLIDE);

  const stop = (): void => {
    end(output);
    heard = null;
  };

  return {
    play: async (view) => {
      output ??= openOutput(make, level);
      if (output.playing) glide(output, view);
      else begin(output, view);
      heard = view;
      await output.context.resume();
    },
    load: (next) => {
      const same = next.round === sounds.round;
      sounds = next;
      views = levelled(next.views, next.products);
      if (!output || !heard) return;
      if (same) glide(output, heard);
      else begin(output, heard);
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
