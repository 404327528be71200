import { asTyped, formatEntry, type NumberFault, type NumberRule } from "../core/lib/number";
import type { PanStyle } from "../core/model/setup";
import type { PanFault, PanNotation } from "../core/pan/notation-styles";
import { type TextsOf, textOf } from "./coded";

/** What is wrong with what was typed into a field. */
export type EntryFault = NumberFault | PanFault;

const rangeText = ({ min, max, unit }: NumberRule): string =>
  `${formatEntry(min)} to ${formatEntry(max)}${unit && ` ${unit}`}`;

const MIDI = "0 to 127";
const CLOCK = "7:00 (left) to 5:00 (right)";
const PANS: { readonly [style in PanStyle]: (notation: PanNotation) => string } = {
  steps: ({ panSteps }) => `L${panSteps} to R${panSteps}`,
  midi: () => MIDI,
  clock: () => CLOCK,
};

const FAULTS: TextsOf<EntryFault, [typed: string]> = {
  "no number": ({ rule }, typed) => `${rule.name}: “${typed}” is not a number. Allowed: ${rangeText(rule)}.`,
  "not whole": ({ rule }, typed) =>
    `${rule.name}: ${typed} is not a whole number. Allowed: ${rangeText(rule)}.`,
  outside: ({ rule }, typed) => `${rule.name}: ${typed} is outside ${rangeText(rule)}.`,
  "no pan": ({ notation }, typed) =>
    `Pan: “${typed}” is not a pan. Allowed: ${PANS[notation.panStyle](notation)}, or C.`,
  "outside steps": ({ of, unit }, typed) => `Pan: ${typed} is outside L${of}${unit} to R${of}${unit}.`,
  "not whole MIDI": (_, typed) => `Pan: ${typed} is not a whole number. Allowed: ${MIDI}.`,
  "outside MIDI": (_, typed) => `Pan: ${typed} is outside ${MIDI}.`,
  "no time": (_, typed) => `Pan: ${typed} is not a time. Allowed: ${CLOCK}.`,
  "outside clock": (_, typed) => `Pan: ${typed} is outside ${CLOCK}.`,
};

/** What is wrong with what was typed, in a sentence: which value, what is allowed. */
export const describeEntryFault = (fault: EntryFault): string => textOf(FAULTS, fault, asTyped(fault.typed));
