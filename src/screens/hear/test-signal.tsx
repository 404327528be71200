import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import { FIRST_LEVEL, newOutput, type Output } from "../../listen/output";
import { type WalkName, walkOf } from "../../listen/walk";
import { Choice } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { Icon } from "../../ui/icon";
import { attempt } from "../attempt";
import { Caution, LevelSlider } from "../listen/level";

const RATE = 48_000;

/** Plays one signal until it is stopped or this part is left. */
const Deck = () => {
  const name = useSignal<WalkName>("beeps");
  const level = useSignal<number>(FIRST_LEVEL);
  const plays = useSignal(false);
  const output = useRef<Output | null>(null);
  const stop = (): void => {
    plays.value = false;
    void output.current?.close();
    output.current = null;
  };
  useLayoutEffect(() => stop, []);
  const play = async (): Promise<void> => {
    const now = output.current ?? newOutput();
    output.current = now;
    now.setLevel(level.value);
    const { round, gains } = walkOf(name.value, RATE);
    plays.value = true;
    if (!(await attempt("No sound could be made", () => now.play(round, gains)))) stop();
  };
  return (
    <div class="stack deck">
      <p class="soft">
        For working alone: plug the headphone output of this device into two line inputs, and follow the
        signal along its path. One beep is L, two are R, three are both.
      </p>
      <Caution />
      <Choice
        label="Signal"
        value={name.value}
        options={[
          ["beeps", "Beeps: L, R, both"],
          ["noise", "Pink noise on both"],
        ]}
        onValue={(to) => {
          name.value = to;
          if (plays.value) void play();
        }}
      />
      <LevelSlider
        value={level.value}
        onValue={(to) => {
          level.value = to;
          output.current?.setLevel(to);
        }}
      />
      <button type="button" class="main" onClick={() => (plays.value ? stop() : void play())}>
        <span class="row listen">
          <Icon name={plays.value ? "hush" : "sound"} />
          {plays.value ? "Stop the test signal" : "Play the test signal"}
        </span>
      </button>
    </div>
  );
};

/** A signal to walk with: its sides are told apart by the count of beeps, wherever they come out. */
export const TestSignal = () => <Fold title="Play a test signal">{() => <Deck />}</Fold>;
