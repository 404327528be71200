import type { HeardDrum } from "../../src/core/hear/heard";
import { hearingOf } from "../../src/core/hear/hearing";
import { hitFinder } from "../../src/core/hear/hit-finder";
import { stateOf } from "../../src/core/hear/state-of";
import { sitsAtKit } from "../../src/core/model/kinds";
import type { Listener } from "../../src/core/model/setup";
import type { SetupFile } from "../../src/document/schema";
import { eveningOf, hitOn, type Wrong } from "../core/hear/stage";
import { numbers } from "../tools/chance.mjs";
import { type Played, RATE } from "./pair";

/** From one hit to the next, seconds: longer than a busy machine takes to say what to hit next. */
const APART = 4;
/** Hits at most, with those that are refused. */
const MOST_TAKES = 40;
/** Nothing is hit any more for so long, seconds, before it begins anew. */
const REST = 40;

/** What an input hears of a check at the drummer's mixer: each drum that is asked for hit once, as long as it takes. */
export const checkSound = (setup: SetupFile, wrong: Wrong, seed = 2): Played => {
  const random = numbers(seed);
  const evening = eveningOf(setup, wrong, RATE, random);
  const drummer = setup.listeners.find((one) => sitsAtKit(one)) as Listener;
  const hearing = hearingOf(setup, drummer, "mixer");
  const heard: HeardDrum[] = [];
  const sides: [Float64Array[], Float64Array[]] = [[], []];
  const hiss = (): Float64Array =>
    Float64Array.from({ length: APART * RATE }, () => 10 ** (-60 / 20) * Math.sqrt(3) * (2 * random() - 1));
  for (let takes = 0; takes < MOST_TAKES; takes += 1) {
    const state = stateOf(hearing, heard);
    if (state.verdict.kind !== "asking") break;
    const { left, right } = hitOn(evening, state.verdict.next);
    const [found] = hitFinder(RATE).take(left, right);
    // One that is refused is asked for again.
    if (found?.kind === "hit") heard.push({ piece: state.verdict.next, hit: found.hit });
    [left, right].forEach((side, at) => {
      const stretch = hiss();
      stretch.set(side, RATE);
      sides[at as 0 | 1].push(stretch);
    });
  }
  return sides.map((parts) => {
    const all = [...parts, ...Array.from({ length: REST / APART }, hiss)];
    const side = new Float64Array(all.length * APART * RATE);
    all.forEach((part, at) => {
      side.set(part, at * APART * RATE);
    });
    return side;
  });
};
