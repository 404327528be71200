import type { Id } from "../model/setup";
import type { AllocationProblem, BusId, Width } from "./model";

/** Something that was put on an input by hand. */
export interface Placed {
  readonly of: { readonly channel: Id } | { readonly bus: BusId };
  readonly input: number;
  readonly width: Width;
}

/** Inputs that are not spoken for. */
export interface Space {
  /** Inputs that may be used, from 1, ascending. */
  readonly free: readonly number[];
  /** First inputs of free odd/even neighbours, ascending. */
  readonly pairs: readonly number[];
  readonly placed: readonly Placed[];
}

/** The inputs of a feed. */
export const inputsFrom = (input: number, width: Width): number[] =>
  width === 2 ? [input, input + 1] : [input];

/** What was put on inputs by hand. */
export const placedIn = ({
  channels,
  busPins,
}: Pick<AllocationProblem, "channels" | "busPins">): Placed[] => [
  ...channels.flatMap(({ id, pin }) =>
    pin?.as === "own" && pin.input !== null
      ? [{ of: { channel: id }, input: pin.input, width: pin.width }]
      : [],
  ),
  ...busPins.flatMap(({ bus, input, width }) => (input === null ? [] : [{ of: { bus }, input, width }])),
];

/** Whether a feed can stand there at all: within the system, on inputs that are not reserved, stereo on odd and even. */
export const canStand = (problem: AllocationProblem, { input, width }: Placed): boolean =>
  Number.isInteger(input) &&
  (width === 1 || input % 2 === 1) &&
  inputsFrom(input, width).every((n) => n >= 1 && n <= problem.inputs && !problem.reserved.includes(n));

/** What is left once everything that was placed by hand stands; null where that is impossible. */
export const spaceOf = (problem: AllocationProblem): Space | null => {
  const placed = placedIn(problem);
  if (!placed.every((p) => canStand(problem, p))) return null;
  const taken = new Set(problem.reserved);
  for (const { input, width } of placed)
    for (const n of inputsFrom(input, width)) {
      if (taken.has(n)) return null;
      taken.add(n);
    }
  const free = Array.from({ length: problem.inputs }, (_, i) => i + 1).filter((n) => !taken.has(n));
  const pairs = free.filter((n) => n % 2 === 1 && n < problem.inputs && !taken.has(n + 1));
  return { free, pairs, placed };
};
