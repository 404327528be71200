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

const NAMES: { readonly [name in WalkName]: string } = {
  beeps: "Beeps: L, R, both",
  noise: "Pink noise on both",
  tone: "Tone on both, 1 kHz",
};
/** Which of them suit a walk along a path, and which a measurement; the first is chosen. */
const SIGNALS = { walk: ["beeps", "noise"], measure: ["noise", "tone"] } as const;
const USE = {
  walk: "For working alone: plug the headphone output of this device into two line inputs, and follow the signal along its path. One beep is L, two are R, three are both.",
  measure:
    "Plug the headphone output of this device into a line input, and send that channel to the bus. Play it while you measure.",
} as const;

/** Plays one signal until it is stopped or this part is left. */
const Deck = ({ to: use }: { to: keyof typeof SIGNALS }) => {
  const name = useSignal<WalkName>(SIGNALS[use][0]);
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
      <p class="soft">{USE[use]}</p>
      <Caution />
      <Choice
        label="Signal"
        value={name.value}
        options={SIGNALS[use].map((one) => [one, NAMES[one]] as const)}
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

/**
 * A signal to walk with, whose sides are told apart by the count of beeps wherever they come out, or a steady one to
 * measure.
 */
export const TestSignal = ({ to = "walk" }: { to?: keyof typeof SIGNALS }) => (
  <Fold title="Play a test signal" look={to === "walk" ? "card" : "plain"}>
    {() => <Deck to={to} />}
  </Fold>
);
