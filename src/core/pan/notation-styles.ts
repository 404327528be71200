import type { Typed } from "../lib/number";
import type { Desk, PanStyle } from "../model/setup";
import type { Pan } from "../model/units";

/** What of a console decides how a pan is written. */
export type PanNotation = Pick<Desk, "panStyle" | "panSteps">;

/** Why a typed text is no pan. */
export type PanFault = { readonly typed: string } & (
  | { readonly code: "no pan"; readonly notation: PanNotation }
  /** Beyond so many steps or percent each side. */
  | { readonly code: "outside steps"; readonly of: number; readonly unit: "" | "%" }
  | { readonly code: "not whole MIDI" }
  | { readonly code: "outside MIDI" }
  | { readonly code: "no time" }
  | { readonly code: "outside clock" }
);

/** What a typed text means as a pan. */
export type TypedPan = Typed<PanFault>;

/** One way to write a pan. */
export interface Style {
  /** Steps each side of centre. */
  readonly steps: (notation: PanNotation) => number;
  /** What a number with a side beside it counts in: 30 of so many. */
  readonly sided: (notation: PanNotation) => number;
  /** A whole step from centre, negative to the left. */
  readonly print: (step: number) => string;
  /** A number without side or sign; null where it means a step to the right. */
  readonly bare: ((digits: string, typed: string) => TypedPan) | null;
}

/** A typed text that is no pan. */
export const noPan = (why: PanFault): TypedPan => ({ state: "wrong", why });

/** A half-typed pan. */
export const OPEN: TypedPan = { state: "open" };

/** The pan of a count to one side, negative to the left; never −0. */
export const share = (count: number, of: number): Pan => (count === 0 ? 0 : count / of);

/** Steps of RP-036 each side of its centre 64; 0 and 1 are both hard left. */
const MIDI_STEPS = 63;
/** Largest number of a MIDI controller. */
const MIDI_MOST = 127;

const readMidi = (digits: string, typed: string): TypedPan => {
  const value = Number(digits);
  if (!Number.isInteger(value)) return noPan({ code: "not whole MIDI", typed });
  if (value > MIDI_MOST) return noPan({ code: "outside MIDI", typed });
  return { state: "value", value: share(Math.max(value, 1) - 64, MIDI_STEPS) };
};

/** Hours of the clock each side of 12, and the steps an eye can set on such a knob: quarters of an hour. */
const CLOCK_HOURS = 5;
const CLOCK_STEPS = CLOCK_HOURS * 4;
const TIME = /^(\d{1,2})(?:[:.](\d{0,2}))?$/;

/** A time of day on the knob; a point or comma before the minutes is a colon, so "10.30" is half past ten. */
export const readClock = (digits: string, typed: string): TypedPan => {
  const [, hours = "", minutes] = TIME.exec(digits) ?? [];
  if (digits === "0" || (minutes !== undefined && minutes.length < 2)) return OPEN;
  const hour = Number(hours);
  const late = Number(minutes ?? 0);
  if (hour < 1 || hour > 12 || late > 59) return noPan({ code: "no time", typed });
  const fromNoon = (hour > 6 ? hour - 12 : hour) + late / 60;
  if (Math.abs(fromNoon) > CLOCK_HOURS) return noPan({ code: "outside clock", typed });
  return { state: "value", value: share(fromNoon, CLOCK_HOURS) };
};

const printClock = (step: number): string => {
  const minutes = (12 + (step * CLOCK_HOURS) / CLOCK_STEPS) * 60;
  const hour = Math.floor(minutes / 60);
  return `${hour > 12 ? hour - 12 : hour}:${String(minutes % 60).padStart(2, "0")}`;
};

/** Every style of a console. The clock (7:00 hard left, 12:00 centre, 5:00 hard right) is common practice, no source. */
export const PAN_STYLES: { readonly [style in PanStyle]: Style } = {
  steps: {
    steps: (n) => n.panSteps,
    sided: (n) => n.panSteps,
    print: (step) => (step === 0 ? "C" : `${step < 0 ? "L" : "R"}${Math.abs(step)}`),
    bare: null,
  },
  midi: {
    steps: () => MIDI_STEPS,
    sided: () => MIDI_STEPS,
    print: (step) => String(64 + step),
    bare: readMidi,
  },
  clock: {
    steps: () => CLOCK_STEPS,
    sided: () => 100,
    print: printClock,
    bare: readClock,
  },
};
