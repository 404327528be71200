import { nameOf, sumCalled } from "../called";
import { printNumber } from "../number";
import { slotTrims } from "../patched";
import type { Db } from "../units";
import { listed } from "../words";
import type { Plan } from "./search";
import type { Situation } from "./situation";
import type { Voice } from "./voices";

/** What there is to know of a repair beside its steps. */
export type NoteCode =
  /** Sources that must keep their sides lose them. */
  | "sides lost"
  /** The house hears something else. */
  | "house"
  | "leg trims"
  | "slot trims"
  | "rounding"
  /** Legs of different polarity. */
  | "polarity"
  /** Processing on one leg only. */
  | "uneven legs"
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
  /** With the legs: at the patch, or in a copy in reverse order. */
  readonly legs: boolean;
  readonly swap: boolean;
  /** By pan. */
  readonly pans: boolean;
}

/** A note. */
export const note = (code: NoteCode, says: string): RepairNote => ({ code, says });
const db = (value: Db): string => `${printNumber(value, value < 0.1 ? 2 : 1)} dB`;
/** Below this a rounding is not worth a word, dB. */
const SLIGHT: Db = 0.005;

/** Names of the voices' sources, for a sentence. */
export const namesOf = (voices: readonly Voice[]): string =>
  listed(voices.map((v) => nameOf(v.source, "source")));

/** What unequal trims of legs and of slots keep from being an exact mirror. */
export const trimNotes = ({ sum, setup }: Situation, { residual }: Plan, turns: Turns): RepairNote[] => {
  const off = `up to ${db(residual)} off an exact mirror`;
  const notes: RepairNote[] = [];
  const legs = Math.abs(sum.legTrim[0] - sum.legTrim[1]);
  const [left, right] = slotTrims(setup.monitor, sum);
  const slots = Math.abs(left - right);
  if (legs > 0) {
    const apart = `The legs of ${sumCalled(sum)} are trimmed ${db(legs)} apart`;
    if (turns.legs) notes.push(note("leg trims", `${apart}: the trims change ears with the legs.`));
    if (turns.pans) notes.push(note("leg trims", `${apart} and stay so: what is panned over is ${off}.`));
  }
  if (slots > 0 && (turns.swap || turns.pans)) {
    const says = `The slots of its legs are trimmed ${db(slots)} apart and keep that: ${off}.`;
    notes.push(note("slot trims", says));
  }
  return notes;
};

/** What the legs have beside trims, by what turns things round: the legs themselves, or pans. */
const LEG_SAYS = {
  polarity: {
    legs: "One leg is inverted: the inversion changes ears with it.",
    pans: "One leg is inverted: what is panned over changes polarity, the ear does not.",
  },
  "uneven legs": {
    legs: "One leg is processed: the processing changes ears with it.",
    pans: "One leg is processed: what is panned over goes into or out of that processing, so it is no exact mirror.",
  },
} as const;

/** What else the legs have that is not alike. */
export const legNotes = ({ sum }: Situation, turns: Turns): RepairNote[] => {
  const has = { polarity: sum.legInverted[0] !== sum.legInverted[1], "uneven legs": sum.unevenLegs };
  return (["polarity", "uneven legs"] as const).flatMap((code) =>
    (["legs", "pans"] as const)
      .filter((by) => has[code] && turns[by])
      .map((by) => note(code, LEG_SAYS[code][by])),
  );
};

/** What panning over does not do exactly: roundings, and sources of two channels. */
export const panNotes = (panned: readonly Voice[], inHouse: readonly Voice[]): RepairNote[] => {
  const notes: RepairNote[] = [];
  const errors: [Voice, Db][] = [
    ...panned.map((v): [Voice, Db] => [v, v.over.error]),
    ...inHouse.map((v): [Voice, Db] => [v, v.houseOver.error]),
  ];
  const worst = errors.reduce<[Voice, Db] | null>((a, b) => (a && a[1] >= b[1] ? a : b), null);
  if (worst && worst[1] > SLIGHT) {
    const says = `The console’s steps cost up to ${db(worst[1])}, most for ${namesOf([worst[0]])}.`;
    notes.push(note("rounding", says));
  }
  const two = [...new Set([...panned, ...inHouse])].filter((v) => v.source.channels === 2);
  if (two.length > 0) {
    const says = `${namesOf(two)}: panning moves the balance, it does not exchange the two channels.`;
    notes.push(note("two channels", says));
  }
  return notes;
};
