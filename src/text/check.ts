import type { Obstacle } from "../core/check/check";
import type { Fault } from "../core/check/faults";
import type { Hypothesis } from "../core/check/hypotheses";
import { isOverhead } from "../core/check/paths";
import { mixedChannelsOf } from "../core/mix/bus";
import { busOf } from "../core/mix/ear-gains";
import { inputOfSide, sidesOff } from "../core/mix/pair-order";
import type { Action, Answer, Listener, Setup } from "../core/model/setup";
import { CHOOSE_BUS } from "./image";
import { busName, listenerName, nameOr } from "./names";
import { capitalised, formatList } from "./words";

/** What the sentences of a check speak of. */
export interface CheckNames {
  /** The bus that is checked. */
  readonly bus: string;
  /** Whose ears. */
  readonly who: string;
  /** The monitor inputs of the bus, as "In 1" and "In 2"; null for one that has none. */
  readonly first: string | null;
  readonly second: string | null;
  /** Whether the bus has overheads. */
  readonly overheads: boolean;
  /** Monitor inputs that are off in the plan, for a sentence. */
  readonly off: string;
}

/** The names that a check of a listener speaks of. */
export const checkNames = (setup: Setup, listener: Listener): CheckNames => {
  const bus = busOf(setup, listener);
  const sides = bus ? (["left", "right"] as const).map((side) => inputOfSide(setup.monitor, bus, side)) : [];
  const [first = null, second = null] = sides
    .filter((at) => at >= 0)
    .sort((a, b) => a - b)
    .map((at) => `In ${at + 1}`);
  const offs = bus ? sidesOff(setup.monitor, bus) : [false, false];
  return {
    bus: busName(bus),
    who: listenerName(listener),
    first,
    second,
    overheads: bus ? mixedChannelsOf(setup, bus).some((part) => isOverhead(setup, part)) : false,
    off: formatList(sides.flatMap((at, side) => (offs[side] ? [`In ${at + 1}`] : []))),
  };
};

const both = ({ first, second, bus }: CheckNames): string =>
  first && second ? `${first} and ${second}` : `the inputs of ${bus}`;
const withNumber = (number: string | null): string => (number ? ` (${number})` : "");

/** A fault in words: what is so, and what to do in which order. */
export interface FaultText {
  readonly name: string;
  readonly steps: readonly string[];
}

/** The one table of what is said of faults. `channel` is the channel at fault, where it is one channel's. */
const FAULT_TEXT: Readonly<Record<Fault, (names: CheckNames, channel: string) => FaultText>> = {
  planned: () => ({ name: "As planned", steps: [] }),
  swapped: (names) => ({
    name: `${names.bus} L/R is swapped at the patch`,
    steps: [`Swap the leads of ${names.bus} L and R: ${both(names)}.`],
  }),
  flipped: ({ who }) => ({
    name: `L/R is flipped at ${who}’s mixer`,
    steps: [`At ${who}’s mixer, flip L/R back.`],
  }),
  "ears-swapped": ({ who }) => ({
    name: `${capitalised(who)}’s earpieces or pack lead are swapped`,
    steps: [
      "Check that the earpiece marked L is in the left ear.",
      "If it is, change the lead between mixer and pack.",
    ],
  }),
  "left-only": ({ bus }) => ({
    name: `Only ${bus} L arrives`,
    steps: [
      `At the monitor system, check that the input of ${bus} R is on and its trim up.`,
      `Check the lead of ${bus} R at both ends.`,
    ],
  }),
  "right-only": ({ bus }) => ({
    name: `Only ${bus} R arrives`,
    steps: [
      `At the monitor system, check that the input of ${bus} L is on and its trim up.`,
      `Check the lead of ${bus} L at both ends.`,
    ],
  }),
  "left-in-both": ({ bus }) => ({
    name: `${bus} L is in both ears`,
    steps: [`At the patch, feed the input of ${bus} R from ${bus} R.`],
  }),
  "right-in-both": ({ bus }) => ({
    name: `${bus} R is in both ears`,
    steps: [`At the patch, feed the input of ${bus} L from ${bus} L.`],
  }),
  folded: (names) => ({
    name: `${names.bus} is folded to mono`,
    steps: [
      `At ${names.who}’s mixer, link ${both(names)} and pan them hard left and hard right.`,
      "Set the pack to stereo.",
    ],
  }),
  "left-ear-dead": () => ({
    name: "The left earpiece is dead",
    steps: ["Try another earpiece on the left.", "Then another lead, then another pack."],
  }),
  "right-ear-dead": () => ({
    name: "The right earpiece is dead",
    steps: ["Try another earpiece on the right.", "Then another lead, then another pack."],
  }),
  inverted: ({ bus }) => ({
    name: `Polarity of one side of ${bus} is inverted`,
    steps: [
      `At the desk, compare the polarity switches of ${bus} L and R: both must be alike.`,
      "If they are, change one of the two leads.",
    ],
  }),
  "inputs-up": (names) => ({
    name: `${capitalised(names.who)}’s mixer is set one input too high`,
    steps: [`At ${names.who}’s mixer, choose ${both(names)}.`],
  }),
  "inputs-down": (names) => ({
    name: `${capitalised(names.who)}’s mixer is set one input too low`,
    steps: [`At ${names.who}’s mixer, choose ${both(names)}.`],
  }),
  "all-centred": ({ bus }) => ({
    name: `Every send to ${bus} is centred`,
    steps: [`At the desk, let the sends to ${bus} follow channel pan, or pan them.`],
  }),
  silent: ({ bus, who }) => ({
    name: `Nothing of ${bus} arrives`,
    steps: [
      `At the desk, check the fader and mute of ${bus}.`,
      `At the monitor system, check that the inputs of ${bus} are on.`,
      `Check that ${who}’s pack is on and turned up.`,
    ],
  }),
  "switched-on": ({ bus, off }) => ({
    name: `All of ${bus} arrives, though the plan has ${off} off`,
    steps: [`Nothing to do at the monitor system. In the plan, switch ${off} on.`],
  }),
  "overheads-crossed": ({ bus }) => ({
    name: "The overheads are crossed",
    steps: [
      "Swap the leads of the two overheads.",
      `If the leads are right, swap the pans of the overheads in ${bus}.`,
    ],
  }),
  "wrong-side": ({ bus }, channel) => ({
    name: `${channel} is on the wrong side`,
    steps: [`At the desk, pan ${channel} to the other side in ${bus}.`],
  }),
  missing: ({ bus }, channel) => ({
    name: `${channel} is missing`,
    steps: [
      `At the desk, check the mute of ${channel} and its send to ${bus}.`,
      `Check the microphone and lead of ${channel}.`,
    ],
  }),
};

/** A fault of a check in words. */
export const describeFault = (
  setup: Setup,
  names: CheckNames,
  { fault, channel }: Pick<Hypothesis, "fault" | "channel">,
): FaultText =>
  FAULT_TEXT[fault](
    names,
    nameOr(
      setup.channels.find((s) => s.id === channel),
      "channel",
    ),
  );

/** What is found, in one line: every fault that cannot be told from the others is named. */
export const formatHeadline = (faults: readonly FaultText[], isPlanned: boolean): string => {
  if (isPlanned) return "As planned";
  const [first, ...others] = faults;
  if (others.length > 2) return `${first?.name}, or one of ${others.length} more`;
  return [first, ...others].map((text) => text?.name ?? "").join(", or: ");
};

/** An answer as it stands on its button and in a sentence. */
export const ANSWER_TEXT: Readonly<Record<Answer, { readonly button: string; readonly said: string }>> = {
  left: { button: "Left", said: "on the left" },
  middle: { button: "Middle", said: "in the middle" },
  right: { button: "Right", said: "on the right" },
  nothing: { button: "Nothing", said: "not heard" },
  unclear: { button: "Can’t place it", said: "impossible to place" },
};

/** An action in words: what to do before the hit, and how to set it back. */
export interface ActionText {
  readonly before: string;
  readonly after: string;
}

/** The one table of what is said of actions. */
const ACTION_TEXT: Readonly<Record<Action, (names: CheckNames) => ActionText>> = {
  "mute-overheads": ({ bus }) => ({
    before: `Mute the overheads in ${bus}.`,
    after: `Unmute the overheads in ${bus}.`,
  }),
  mono: ({ bus, who, overheads }) => ({
    before: `${overheads ? `Mute the overheads in ${bus}, and set` : "Set"} ${who}’s mixer to mono.`,
    after: `Set ${who}’s mixer back to stereo${overheads ? `, and unmute the overheads in ${bus}` : ""}.`,
  }),
  "first-input": ({ bus, who, second }) => ({
    before: `At ${who}’s mixer, mute the second input of ${bus}${withNumber(second)}.`,
    after: `At ${who}’s mixer, unmute the second input of ${bus}${withNumber(second)}.`,
  }),
  "balance-left": ({ who }) => ({
    before: `At ${who}’s mixer, turn the balance hard left.`,
    after: `At ${who}’s mixer, turn the balance back to centre.`,
  }),
  "balance-right": ({ who }) => ({
    before: `At ${who}’s mixer, turn the balance hard right.`,
    after: `At ${who}’s mixer, turn the balance back to centre.`,
  }),
};

/** An action of a check in words. */
export const describeAction = (names: CheckNames, action: Action): ActionText => ACTION_TEXT[action](names);

/** Why nothing can be checked, and what to do about it. */
const OBSTACLE_TEXT: Readonly<Record<Obstacle | "nothing-to-tell", (names: CheckNames) => string>> = {
  audience: () => "The audience hears FOH, not a bus. Choose a musician.",
  "no-bus": ({ who }) => `${capitalised(who)} hears no bus. ${CHOOSE_BUS}`,
  "no-drum": ({ bus }) => `No drum is in ${bus}. Send a drum channel to it.`,
  "nothing-to-tell": () => "No hit can tell one fault from another here. Send more drum channels to the bus.",
};

/** Why nothing can be checked, in a sentence. */
export const describeObstacle = (names: CheckNames, why: Obstacle | "nothing-to-tell"): string =>
  OBSTACLE_TEXT[why](names);
