import { quoted } from "../core/lib/direction";
import { formatNumber } from "../core/lib/number";
import { isSwapped } from "../core/mix/pair-order";
import type { Bus, Id, Setup } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { formatPan } from "../core/pan/notation";
import type { Note, Own, PanMove, Parts, Step } from "../core/recommend/model";
import { busName, channelName, listenerName } from "./names";
import { capitalised, formatCount, formatList } from "./words";

/** What names are looked up in. */
export type Names = Pick<Setup, "channels" | "buses" | "listeners" | "desk">;

const busOf = (setup: Names, id: Id): string => busName(setup.buses.find((s) => s.id === id));
/** A listener in the middle of a sentence. */
export const listenerOf = (setup: Names, id: Id): string =>
  listenerName(setup.listeners.find((l) => l.id === id));
const namesOf = (setup: Names, ids: readonly Id[]): string =>
  formatList(ids.map((id) => channelName(setup, id)));
/** A monitor input by its number: "In 3". */
export const input = (index: number): string => `In ${index + 1}`;
const formatDb = (value: Db): string => `${formatNumber(value, value < 0.1 ? 2 : 1)} dB`;

const describePan = (setup: Names, { from, to, followed }: PanMove): string => {
  const now = `${formatPan(from, setup.desk)}${followed ? ", follows channel pan" : ""}`;
  return `${formatPan(to, setup.desk)} (now ${now})`;
};

/**
 * One step as a sentence for the desk, pans as the desk shows them.
 * @param setup as it was before the recommendation was applied
 */
export const describeStep = (setup: Names, step: Step): string => {
  switch (step.step) {
    case "swap": {
      const name = busOf(setup, step.bus);
      return step.inputs
        ? `Patch ${name} L to ${input(step.inputs[0])} and ${name} R to ${input(step.inputs[1])}.`
        : `When you patch ${name} to monitor inputs, swap its L/R.`;
    }
    case "fold":
      return `Fold ${busOf(setup, step.bus)} to mono.`;
    case "pan":
      return `Pan ${channelName(setup, step.channel)} in ${busOf(setup, step.bus)} to ${describePan(setup, step)}.`;
    case "channel pan":
      return `Set the channel pan of ${channelName(setup, step.channel)} to ${describePan(setup, step)}.`;
    case "flip": {
      const mixer = `${listenerOf(setup, step.listener)}’s mixer`;
      return step.flipped ? `Flip L/R on ${mixer}.` : `Turn off the L/R flip on ${mixer}.`;
    }
    case "own bus": {
      const [left, right] = step.inputs;
      const pans = step.pans.map((p) => `${channelName(setup, p.channel)} to ${describePan(setup, p)}`);
      const set = pans.length === 0 ? "" : ` In it, pan ${formatList(pans)}.`;
      const copy = `Copy ${busOf(setup, step.of)} to a new stereo bus, ${quoted(step.copy.name)}`;
      const who = listenerOf(setup, step.listener);
      return `${copy}, for ${who} only: patch its L to ${input(left)} and its R to ${input(right)}.${set}`;
    }
  }
};

/** Up to so many channels are named in one line; more are counted. */
const NAMED = 3;

const channels = (setup: Names, ids: readonly Id[]): string =>
  ids.length <= NAMED ? namesOf(setup, ids) : `${ids.length} channels`;

/** What is done for listeners alone. */
const OWN: readonly {
  readonly is: (own: Own) => boolean;
  readonly one: (name: string) => string;
  readonly many: (names: string) => string;
}[] = [
  {
    is: (o) => o.does === "flip",
    one: (name) => `flip L/R on ${name}’s mixer`,
    many: (names) => `flip L/R on the mixers of ${names}`,
  },
  {
    is: (o) => o.does === "own bus" && o.swap,
    one: (name) => `give ${name} a bus of their own with L/R swapped`,
    many: (names) => `give ${names} a bus each with L/R swapped`,
  },
  {
    is: (o) => o.does === "own bus" && !o.swap,
    one: (name) => `give ${name} a bus of their own`,
    many: (names) => `give ${names} a bus each`,
  },
];

/**
 * What to do in one line, such as "Swap Drums L/R and flip L/R on Ines’s mixer".
 * @param setup as it was before the recommendation was applied
 * @param bus as it was then
 */
export const describeParts = (setup: Setup, bus: Bus, parts: Parts): string => {
  const name = busName(bus);
  const does: string[] = [];
  if (parts.swap) does.push(`swap ${name} L/R${isSwapped(setup, bus) ? " back to normal" : ""}`);
  if (parts.fold) does.push(`fold ${name} to mono`);
  if (parts.panning === "bus")
    does.push(`re-pan ${channels(setup, parts.mirrored)} in ${parts.swap ? "it" : name}`);
  if (parts.panning === "foh") does.push(`set the channel pan of ${channels(setup, parts.mirrored)}`);
  for (const { is, one, many } of OWN) {
    const who = parts.own.filter(is).map((o) => listenerOf(setup, o.listener));
    const [only] = who;
    if (only !== undefined) does.push(who.length === 1 ? one(only) : many(formatList(who)));
  }
  return does.length === 0 ? `Leave ${name} as it is` : capitalised(formatList(does));
};

/**
 * One thing to know of a recommendation, as a sentence.
 * @param bus as it was before the recommendation was applied
 */
export const describeNote = (setup: Names, bus: Bus, note: Note): string => {
  const name = busName(bus);
  switch (note.code) {
    case "sides lost": {
      const who = formatList(note.listeners.map((id) => listenerOf(setup, id)));
      const lose = note.channels.length === 1 ? "loses" : "lose";
      return `${namesOf(setup, note.channels)} must keep L/R and ${lose} it for ${who}.`;
    }
    case "foh":
      return `FOH changes: ${namesOf(setup, note.channels)} ${note.channels.length === 1 ? "moves" : "move"} to the other side.`;
    case "folded":
      return `Everyone on ${name} gets the same in both ears.`;
    case "side trims": {
      const apart = `${name} L and R are trimmed ${formatDb(note.apart)} apart`;
      return note.by === "bus"
        ? `${apart}: the trims change ears with them.`
        : `${apart} and stay so: what is re-panned is up to ${formatDb(note.residual)} off an exact mirror.`;
    }
    case "input trims":
      return `The monitor inputs of ${name} L and R are trimmed ${formatDb(note.apart)} apart and stay so: up to ${formatDb(note.residual)} off an exact mirror.`;
    case "rounding":
      return `The desk’s pan steps cost up to ${formatDb(note.error)}, most for ${channelName(setup, note.channel)}.`;
    case "polarity":
      return note.by === "bus"
        ? "One side has inverted polarity: the inversion changes ears with it."
        : "One side has inverted polarity: what is re-panned changes polarity.";
    case "uneven sides":
      return note.by === "bus"
        ? "One side has processing of its own: the processing changes ears with it."
        : "One side has processing of its own: what is re-panned goes into or out of it, so this is no exact mirror.";
    case "balance":
      return `${namesOf(setup, note.channels)}: on a stereo channel the pan moves the balance; L and R stay where they are.`;
  }
};

/** What is left to do at the desk once a recommendation is in the plan: the first steps, and how many more. */
export const describeToDo = (setup: Names, steps: readonly Step[]): string => {
  const [first, ...more] = steps.map((step) => describeStep(setup, step));
  if (first === undefined) return "Plan changed.";
  const rest = more.length === 0 ? "" : ` And ${formatCount(more.length, "more step")}.`;
  return `Plan changed. Now at the desk: ${first}${rest}`;
};
