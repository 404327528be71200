import { formatNumber } from "../lib/number";
import { inputTrims } from "../mix/pair-order";
import type { Db } from "../model/units";
import { busName, nameOr } from "../names";
import { formatList } from "../words";
import type { Plan } from "./search";
import type { Situation } from "./situation";
import type { Voice } from "./voices";

/** What there is to know of a recommendation beside its steps. */
export type NoteCode =
  /** Channels that must keep their sides lose them. */
  | "sides lost"
  /** The house hears something else. */
  | "house"
  | "side trims"
  | "input trims"
  | "rounding"
  /** Legs of different polarity. */
  | "polarity"
  /** Processing on one leg only. */
  | "uneven sides"
  /** A source of two channels is panned over, which exchanges nothing. */
  | "two channels"
  | "folded";

/** One thing to know, as a sentence. */
export interface RepairNote {
  readonly code: NoteCode;
  readonly says: string;
}

/** How a plan turns things round. */
export interface Turns {
  /** With the sides: at the patch, or in a copy in reverse order. */
  readonly sides: boolean;
  readonly swap: boolean;
  /** By pan. */
  readonly pans: boolean;
}

/** A note. */
export const note = (code: NoteCode, says: string): RepairNote => ({ code, says });
const formatDb = (value: Db): string => `${formatNumber(value, value < 0.1 ? 2 : 1)} dB`;
/** Below this a rounding is not worth a word, dB. */
const SLIGHT: Db = 0.005;

/** Names of the voices' channels, for a sentence. */
export const namesOf = (voices: readonly Voice[]): string =>
  formatList(voices.map((v) => nameOr(v.channel, "source")));

/** What unequal trims of sides and of inputs keep from being an exact mirror. */
export const trimNotes = ({ bus, setup }: Situation, { residual }: Plan, turns: Turns): RepairNote[] => {
  const off = `up to ${formatDb(residual)} off an exact mirror`;
  const notes: RepairNote[] = [];
  const sides = Math.abs(bus.sideTrim[0] - bus.sideTrim[1]);
  const [left, right] = inputTrims(setup.monitor, bus);
  const inputs = Math.abs(left - right);
  if (sides > 0) {
    const apart = `The sides of ${busName(bus)} are trimmed ${formatDb(sides)} apart`;
    if (turns.sides) notes.push(note("side trims", `${apart}: the trims change ears with the sides.`));
    if (turns.pans) notes.push(note("side trims", `${apart} and stay so: what is panned over is ${off}.`));
  }
  if (inputs > 0 && (turns.swap || turns.pans)) {
    const says = `The inputs of its sides are trimmed ${formatDb(inputs)} apart and keep that: ${off}.`;
    notes.push(note("input trims", says));
  }
  return notes;
};

/** What the sides have beside trims, by what turns things round: the sides themselves, or pans. */
const SIDE_SAYS = {
  polarity: {
    sides: "One side is inverted: the inversion changes ears with it.",
    pans: "One side is inverted: what is panned over changes polarity, the ear does not.",
  },
  "uneven sides": {
    sides: "One side is processed: the processing changes ears with it.",
    pans: "One side is processed: what is panned over goes into or out of that processing, so it is no exact mirror.",
  },
} as const;

/** What else the sides have that is not alike. */
export const sideNotes = ({ bus }: Situation, turns: Turns): RepairNote[] => {
  const has = { polarity: bus.sideInverted[0] !== bus.sideInverted[1], "uneven sides": bus.unevenSides };
  return (["polarity", "uneven sides"] as const).flatMap((code) =>
    (["sides", "pans"] as const)
      .filter((by) => has[code] && turns[by])
      .map((by) => note(code, SIDE_SAYS[code][by])),
  );
};

/** What panning over does not do exactly: roundings, and channels of two channels. */
export const panNotes = (panned: readonly Voice[], inFoh: readonly Voice[]): RepairNote[] => {
  const notes: RepairNote[] = [];
  const errors: [Voice, Db][] = [
    ...panned.map((v): [Voice, Db] => [v, v.over.error]),
    ...inFoh.map((v): [Voice, Db] => [v, v.fohOver.error]),
  ];
  const worst = errors.reduce<[Voice, Db] | null>((a, b) => (a && a[1] >= b[1] ? a : b), null);
  if (worst && worst[1] > SLIGHT) {
    const says = `The console’s steps cost up to ${formatDb(worst[1])}, most for ${namesOf([worst[0]])}.`;
    notes.push(note("rounding", says));
  }
  const two = [...new Set([...panned, ...inFoh])].filter((v) => v.channel.lines === 2);
  if (two.length > 0) {
    const says = `${namesOf(two)}: panning moves the balance, it does not exchange the two channels.`;
    notes.push(note("two channels", says));
  }
  return notes;
};
