import type { Products } from "../core/measure/covariance";
import { newOutput, type Output } from "./output";
import type { Round } from "./round";
import { levelled, type ViewName, type Views } from "./views";

/** What is to be heard. */
export interface Sounds {
  readonly round: Round;
  /** Mean products of each two voices. */
  readonly products: Products;
  /** What each view makes of the voices. They are brought to one loudness here. */
  readonly views: Views;
}

/** Plays through the phone's own output. Silent until `play`. */
export interface Player extends Pick<Output, "setLevel" | "stop" | "close"> {
  /** Begins, or switches to this view without a gap. Call it from a tap: browsers allow sound from there only. */
  readonly play: (view: ViewName) => Promise<void>;
  /** Other sounds or gains; goes on playing where it plays. */
  readonly load: (sounds: Sounds) => void;
}

/**
 * A player for three views of the same sounds.
 * @param make makes the audio context; called at the first `play`, never before
 */
export const newPlayer = (first: Sounds, make?: () => AudioContext): Player => {
  const output = newOutput(make);
  let sounds = first;
  let views = levelled(sounds.views, sounds.products);
  /** The view that plays. */
  let heard: ViewName | null = null;

  const stop = (): void => {
    output.stop();
    heard = null;
  };

  return {
    play: async (view) => {
      const wasPlaying = heard !== null;
      heard = view;
      if (wasPlaying) output.change(views[view]);
      else await output.play(sounds.round, views[view]);
    },
    load: (next) => {
      const same = next.round === sounds.round;
      sounds = next;
      views = levelled(next.views, next.products);
      if (!heard) return;
      if (same) output.change(views[heard]);
      else void output.play(sounds.round, views[heard]);
    },
    setLevel: output.setLevel,
    stop,
    close: async () => {
      heard = null;
      await output.close();
    },
  };
};
