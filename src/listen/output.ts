import { gainOf } from "../core/level/decibels";
import type { Db, Seconds } from "../core/model/units";
import { AHEAD, buildGraph, type Graph } from "./graph";
import type { Round } from "./round";
import type { ViewGains } from "./views";

/** Level at which everything begins: low, so that the first tap hurts nobody. */
export const FIRST_LEVEL: Db = -30;
/** Range of the level control. */
export const LEVELS: readonly [least: Db, most: Db] = [-60, 0];
/** Glide from one level to another: too short to be heard as a fade, too long to click. */
const GLIDE: Seconds = 0.03;

/** How often what comes next is planned, ms: a browser may let it wait for a second in a hidden page. */
const PLAN_EVERY = (1000 * AHEAD) / 4;

/** The device's own output with one round at a time. Silent until `play`. */
export interface Output {
  /** Begins a round in the place of what plays. Call it from a tap: browsers allow sound from there only. */
  readonly play: (round: Round, gains: ViewGains) => Promise<void>;
  /** Glides to other gains while it plays. */
  readonly change: (gains: ViewGains) => void;
  readonly setLevel: (level: Db) => void;
  readonly stop: () => void;
  /** Ends it and gives the output back. */
  readonly close: () => Promise<void>;
}

/**
 * An output that begins at `FIRST_LEVEL`.
 * @param make makes the audio context; called at the first `play`, never before
 */
export const newOutput = (make: () => AudioContext = () => new AudioContext()): Output => {
  let level = FIRST_LEVEL;
  let open: { readonly context: AudioContext; readonly master: GainNode } | null = null;
  let playing: { readonly graph: Graph; readonly timer: ReturnType<typeof setInterval> } | null = null;

  const opened = () => {
    if (open) return open;
    const context = make();
    const master = new GainNode(context, { gain: gainOf(level) });
    master.connect(context.destination);
    open = { context, master };
    return open;
  };

  const stop = (): void => {
    if (!playing) return;
    clearInterval(playing.timer);
    playing.graph.stop();
    playing = null;
  };

  return {
    play: (round, gains) => {
      const { context, master } = opened();
      stop();
      const graph = buildGraph(context, round, gains);
      graph.output.connect(master);
      graph.start(context.currentTime + GLIDE);
      playing = { graph, timer: setInterval(graph.goOn, PLAN_EVERY) };
      return context.resume();
    },
    change: (gains) => {
      if (open) playing?.graph.change(gains, open.context.currentTime, GLIDE);
    },
    setLevel: (next) => {
      level = next;
      open?.master.gain.setTargetAtTime(gainOf(next), open.context.currentTime, GLIDE);
    },
    stop,
    close: async () => {
      stop();
      const was = open;
      open = null;
      await was?.context.close();
    },
  };
};
