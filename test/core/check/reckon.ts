import { ANSWERS, answerShares, withSlips } from "../../../src/core/check/answers";
import type { Check } from "../../../src/core/check/check";
import { judge, type Verdict } from "../../../src/core/check/judge";
import type { Hit } from "../../../src/core/model/setup";
import { asAsked, draw, isRight } from "./simulate";

/** What comes of checks, with every fault as often as every other unless said otherwise. */
export interface Reckoned {
  /** Share of right verdicts. */
  readonly right: number;
  /** That of the fault which is found worst. */
  readonly least: number;
  readonly unknown: number;
  readonly unsure: number;
  /** Mean hits. */
  readonly hits: number;
  /** Mean hits with the faults as often as their weights say. */
  readonly weighted: number;
}

/**
 * Plays every sequence of answers at once, each with its chance under every fault, so that the result hardly depends on
 * a seed: only sequences that are rarer than a floor under every fault are played out once, by chance.
 * @param slip share of wrong buttons of the drummer, who may slip more or less than the engine believes
 * @param random 0…1, for what is rarer than the floor
 */
export const reckon = (check: Check, slip: number, random: () => number, floor = 1e-3): Reckoned => {
  const faults = check.sets.flatMap((s) => s.faults);
  const planned = faults.find((f) => f.kind === "planned");
  const rows = faults.map((fault) =>
    fault.images.map((image, at) => withSlips(answerShares(image, planned?.images[at] ?? image), slip)),
  );
  const weight = faults.reduce((sum, f) => sum + f.weight, 0);
  const right = faults.map(() => 0);
  const buses = { unknown: 0, unsure: 0, hits: 0, weighted: 0 };

  const count = (verdict: Verdict, hits: number, chances: readonly number[]): void => {
    faults.forEach((fault, at) => {
      const chance = chances[at] ?? 0;
      const share = chance / faults.length;
      buses.hits += hits * share;
      buses.weighted += (hits * chance * fault.weight) / weight;
      if (verdict.kind === "unknown") buses.unknown += share;
      if (verdict.kind === "found" && !verdict.sure) buses.unsure += share;
      if (isRight(verdict, fault)) right[at] = (right[at] ?? 0) + chance;
    });
  };

  /** Follows one drummer to the end for each fault, or all of them as long as they are likely. */
  const follow = (hits: readonly Hit[], chances: readonly number[]): void => {
    const verdict = judge(check, hits);
    if (verdict.kind !== "asking") {
      count(verdict, hits.length, chances);
      return;
    }
    const piece = asAsked(check, verdict.next, hits);
    const strike = check.strikes.findIndex((s) => s.piece === piece);
    const row = (fault: number): readonly number[] => rows[fault]?.[strike] ?? [];
    const on = (answer: number, next: readonly number[]): void =>
      follow([...hits, { piece, answer: ANSWERS[answer] ?? "unclear" }], next);
    const all = chances.reduce((a, b) => a + b, 0);
    if (Math.max(...chances) >= floor) {
      for (let answer = 0; answer < ANSWERS.length; answer++) {
        const next = chances.map((chance, fault) => chance * (row(fault)[answer] ?? 0));
        if (next.some((chance) => chance > 0)) on(answer, next);
      }
      return;
    }
    // One fault stands for all, as often as it is the one: right on average.
    const one = draw(
      chances.map((chance) => chance / all),
      random,
    );
    on(
      draw(row(one), random),
      chances.map((_, fault) => (fault === one ? all : 0)),
    );
  };

  follow(
    [],
    faults.map(() => 1),
  );
  return {
    ...buses,
    right: right.reduce((a, b) => a + b, 0) / faults.length,
    least: Math.min(...right),
  };
};
