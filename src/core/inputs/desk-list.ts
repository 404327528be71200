import type { Channel, Id, Setup } from "../model/setup";
import {
  CONTROL_OWNERS,
  type ControlCode,
  type ControlId,
  type ControlOwner,
  type ControlValues,
  controlKey,
  controlValue,
  type DeskControl,
} from "./controls";
import { controlsOf, UNSET } from "./controls-of";

/** One control to be set: what it stands at, as far as that is known, and what it is to stand at. */
export type DeskMove = {
  readonly [Code in ControlCode]: ControlId<Code> & {
    /** Null where nothing is known, or it stood at nothing: a fader down, an input free. */
    readonly from: ControlValues[Code] | null;
    readonly to: ControlValues[Code];
  };
}[ControlCode];

/** Where at the desk, or beyond it, moves are made. */
export type DeskSection =
  /** Channels that lie under the hands at once, by their numbers. */
  | { readonly at: "bank"; readonly first: number; readonly last: number }
  | { readonly at: "unnumbered" | "buses" | "outputs" | "monitor system" | "mixers" };

/** Moves that are made in one place, in the order in which a hand makes them. */
export interface DeskPart {
  readonly section: DeskSection;
  readonly moves: readonly DeskMove[];
}

const move = ({ control, id, bus }: ControlId, from: unknown, to: unknown): DeskMove =>
  ({ control, id, bus, from, to }) as DeskMove;

/** What nobody can turn: it says where a thing lies, and is a move only where it lies elsewhere than before. */
const isPlace = ({ control }: ControlId): boolean => control === "channel number" || control === "bus number";

const isUnset = ({ control, value }: DeskControl): boolean =>
  value === UNSET[control] || controlValue(value) === controlValue(UNSET[control]);

/** Channels that are no more and whose channel numbers nobody else has taken: their feeds are to be switched off. */
const leftOver = (from: Setup, to: Setup): ReadonlySet<Id> => {
  const taken = new Set(to.channels.flatMap((c) => c.numbers));
  const stays = new Set(to.channels.map((c) => c.id));
  const isTaken = ({ numbers }: Channel): boolean => numbers.length > 0 && numbers.every((n) => taken.has(n));
  return new Set(from.channels.filter((c) => !stays.has(c.id) && !isTaken(c)).map((c) => c.id));
};

/** Controls that stood before and that the plan has not: what still feeds somebody is to be switched off. */
const switchedOff = (before: readonly DeskControl[], to: Setup, over: ReadonlySet<Id>): DeskMove[] => {
  if (before.length === 0) return [];
  const after = new Set(controlsOf(to).map(controlKey));
  const channels = new Set(to.channels.map((c) => c.id));
  const buses = new Set(to.buses.map((b) => b.id));
  const feeds = (c: DeskControl): boolean => {
    if (c.control === "input feed") return true;
    const isThere = channels.has(c.id) || over.has(c.id);
    return (c.control === "direct out" || (c.control === "send" && buses.has(c.bus))) && isThere;
  };
  return before
    .filter((c) => !after.has(controlKey(c)) && feeds(c) && !isUnset(c))
    .map((c) => move(c, c.value, UNSET[c.control]));
};

const fromNothing = (c: DeskControl, from: unknown): DeskMove[] =>
  isPlace(c) || isUnset(c) ? [] : [move(c, from, c.value)];

const changed = (from: Setup, to: Setup): DeskMove[] => {
  const before = controlsOf(from);
  const known = new Map(before.map((c) => [controlKey(c), c]));
  const moves = controlsOf(to).flatMap((c) => {
    const was = known.get(controlKey(c));
    if (!was) return fromNothing(c, UNSET[c.control]);
    return controlValue(was.value) === controlValue(c.value) ? [] : [move(c, was.value, c.value)];
  });
  return [...moves, ...switchedOff(before, to, leftOver(from, to))];
};

const whole = (to: Setup, ticked: readonly DeskControl[]): DeskMove[] => {
  const known = new Map(ticked.map((c) => [controlKey(c), c]));
  const moves = controlsOf(to).flatMap((c) => {
    const was = known.size > 0 ? known.get(controlKey(c)) : undefined;
    const isChanged = was && controlValue(was.value) !== controlValue(c.value);
    return isChanged ? [move(c, was.value, c.value)] : fromNothing(c, was?.value ?? null);
  });
  return [...moves, ...switchedOff(ticked, to, new Set())];
};

/** The first number of each channel and bus, now, else before; none is beyond all. */
interface FirstNumbers {
  readonly channel: (id: Id) => number;
  readonly bus: (id: Id) => number;
}

type Numbered = readonly { readonly id: Id; readonly numbers: readonly number[] }[];

const firstNumbers = (from: Setup | null, to: Setup): FirstNumbers => {
  const of = (before: Numbered, now: Numbered): ((id: Id) => number) => {
    const found = new Map<Id, number>();
    for (const { id, numbers } of [...before, ...now])
      if (numbers[0] !== undefined) found.set(id, numbers[0]);
    return (id) => found.get(id) ?? Number.POSITIVE_INFINITY;
  };
  return {
    channel: of(from?.channels ?? [], to.channels),
    bus: of(from?.buses ?? [], to.buses),
  };
};

const OWNERS: readonly ControlOwner[] = ["channel", "bus", "input", "monitor system", "mixer"];

/** Output port of a move at an input: where it comes from now on, else where it came from. */
const portOfMove = (to: Setup, move: DeskMove): number => {
  const port =
    to.monitor.inputs[Number(move.id)]?.port ?? (move.control === "input feed" ? move.from?.port : null);
  return port ?? Number.POSITIVE_INFINITY;
};

/** Where a move stands in the order of a hand. */
const placeOf = (first: FirstNumbers, to: Setup, move: DeskMove): readonly number[] => {
  const owner = CONTROL_OWNERS[move.control];
  const rank = OWNERS.indexOf(owner);
  if (owner === "mixer") return [rank, 0];
  if (owner === "monitor system") return [rank, Number(move.id)];
  if (owner === "input") return [rank, portOfMove(to, move), Number(move.id)];
  return [rank, first[owner](move.id)];
};

const compare = (a: readonly number[], b: readonly number[]): number => {
  const at = a.findIndex((value, i) => value !== b[i]);
  return at < 0 ? 0 : (a[at] as number) < (b[at] as number) ? -1 : 1;
};

const inOrder = (moves: readonly DeskMove[], from: Setup | null, to: Setup): DeskMove[] => {
  const first = firstNumbers(from, to);
  return moves
    .map((move) => ({ move, place: placeOf(first, to, move) }))
    .sort((a, b) => compare(a.place, b.place))
    .map(({ move }) => move);
};

/**
 * What is to be set from one plan to another, in the order in which a hand meets it: channels by their numbers, each
 * with its direct out and its sends, buses, output ports with the monitor inputs that they feed, the monitor system, musicians’ mixers.
 * @param from the plan before, with the ids of `to` for the same things
 */
export const deskMoves = (from: Setup, to: Setup): DeskMove[] => inOrder(changed(from, to), from, to);

/**
 * Everything that is to be set for a plan, in the same order.
 * @param ticked controls that are known to stand at a value; what stands as planned comes with that value in both places
 */
export const deskList = (to: Setup, ticked: readonly DeskControl[] = []): DeskMove[] =>
  inOrder(whole(to, ticked), null, to);

const sectionOf = (numbers: FirstNumbers, to: Setup, move: DeskMove): DeskSection => {
  const owner = CONTROL_OWNERS[move.control];
  if (owner === "bus") return { at: "buses" };
  if (owner === "input") return { at: "outputs" };
  if (owner === "monitor system") return { at: "monitor system" };
  if (owner === "mixer") return { at: "mixers" };
  const number = numbers.channel(move.id);
  if (!Number.isFinite(number)) return { at: "unnumbered" };
  const { bankSize, channelCount } = to.desk;
  const first = number - ((number - 1) % bankSize);
  // A number that the desk does not have lies in a whole bank all the same.
  const last = first + bankSize - 1;
  return { at: "bank", first, last: number <= channelCount ? Math.min(last, channelCount) : last };
};

const areAlike = (a: DeskSection, b: DeskSection): boolean =>
  a.at === "bank" && b.at === "bank" ? a.first === b.first && a.last === b.last : a.at === b.at;

/** Moves in their order by where they are made. */
export const deskParts = (from: Setup | null, to: Setup, moves: readonly DeskMove[]): DeskPart[] => {
  const parts: { section: DeskSection; moves: DeskMove[] }[] = [];
  const numbers = firstNumbers(from, to);
  for (const move of moves) {
    const section = sectionOf(numbers, to, move);
    const last = parts.at(-1);
    if (last && areAlike(last.section, section)) last.moves.push(move);
    else parts.push({ section, moves: [move] });
  }
  return parts;
};

/** Below this share of channel names in common two setups are of different bands. A design choice. */
const RELATED = 1 / 3;

/** How much two setups have in common. */
export interface Kinship {
  /** Channel names that both have, whatever the case. */
  readonly shared: number;
  /** Channel names in all. */
  readonly all: number;
  /** Too little for the one to be a change of the other. */
  readonly isUnrelated: boolean;
}

/** How much two setups have in common, by the names of their channels; one without channels is no other band. */
export const kinshipOf = (from: Setup, to: Setup): Kinship => {
  const names = ({ channels }: Setup): ReadonlySet<string> =>
    new Set(channels.map((c) => c.name.trim().toLowerCase()).filter(Boolean));
  const [was, is] = [names(from), names(to)];
  const shared = [...was].filter((name) => is.has(name)).length;
  const all = was.size + is.size - shared;
  return { shared, all, isUnrelated: was.size > 0 && is.size > 0 && shared < RELATED * all };
};
