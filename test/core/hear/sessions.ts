import type { HeardDrum, HearingState } from "../../../src/core/hear/heard";
import { type HitCheck, hearingOf } from "../../../src/core/hear/hearing";
import { hitFinder } from "../../../src/core/hear/hit-finder";
import { stateOf } from "../../../src/core/hear/state-of";
import type { Hand, Id, LawId, LawReference, Listener } from "../../../src/core/model/setup";
import type { SetupFile } from "../../../src/document/schema";
import { type MicrophoneCount, templateSetup } from "../../../src/document/templates";
import { ACOUSTICS, type Acoustics, type Evening, eveningOf, hitOn, type Wrong } from "./stage";

/** One kit, hand and law. */
export interface HeardCell {
  readonly name: string;
  readonly setup: SetupFile;
  readonly listener: Listener;
  readonly hearing: HitCheck;
}

/** A template of the app as it begins, heard behind the drummer's own mixer. */
export const heardCell = (
  microphones: MicrophoneCount,
  hand: Hand,
  law: LawId,
  reference: LawReference = "sides",
): HeardCell => {
  const begun = templateSetup(microphones, hand);
  const setup = { ...begun, desk: { ...begun.desk, law, reference } };
  const listener = setup.listeners.find((one) => one.kind === "drummer") as Listener;
  return {
    name: `${microphones} mics, ${hand}, ${law}, ${reference}`,
    setup,
    listener,
    hearing: hearingOf(setup, listener, "mixer"),
  };
};

/** What the phone makes of one hit: what its finder says; null where it heard nothing. */
export const heardHit = (evening: Evening, drum: Id): HeardDrum["hit"] | "refused" => {
  for (let softer = 0; softer < 24; softer += 8) {
    const { left, right } = hitOn(evening, drum, -softer);
    const [found] = hitFinder(evening.rate).take(left, right);
    if (!found) return null;
    if (found.kind === "hit") return found.hit;
    if (found.why === "double") return "refused";
    // Clipped: the app asks for a softer hit.
  }
  return "refused";
};

/** One hearing that was played to its end. */
export interface HeardSession {
  readonly cell: string;
  readonly wrong: Wrong;
  readonly state: HearingState;
  readonly right: boolean;
  readonly hits: number;
  readonly refused: number;
  readonly perDrum: number;
  readonly instead: string;
  /** How many faults were named together. */
  readonly named: number;
}

const isRight = (state: HearingState, { fault, channel }: Wrong): boolean => {
  const { verdict } = state;
  if (fault === "planned") return verdict.kind === "planned";
  const named = (of: readonly { readonly fault: string; readonly channel: Id | null }[]): boolean =>
    of.some((one) => one.fault === fault && one.channel === channel);
  if (verdict.kind === "planned") return named(verdict.open);
  return verdict.kind === "found" && named(verdict.suspects);
};

/** Plays one hearing: every hit as asked. */
export const heardSession = (
  { name, setup, hearing }: HeardCell,
  wrong: Wrong,
  rate: number,
  random: () => number,
  acoustics: Acoustics = ACOUSTICS,
): HeardSession => {
  const evening = eveningOf(setup, wrong, rate, random, acoustics);
  const heard: HeardDrum[] = [];
  let refused = 0;
  for (;;) {
    const state = stateOf(hearing, heard);
    if (state.verdict.kind !== "asking") {
      const { verdict } = state;
      const instead =
        verdict.kind === "found"
          ? verdict.suspects.map((s) => `${s.id} ${s.confidence.toFixed(2)}`).join(" | ")
          : verdict.kind;
      return {
        cell: name,
        wrong,
        state,
        right: isRight(state, wrong),
        hits: heard.length,
        refused,
        perDrum: heard.length / hearing.drums.length,
        instead,
        named: verdict.kind === "found" ? verdict.suspects.length : 0,
      };
    }
    const hit = heardHit(evening, state.verdict.next);
    if (hit === "refused") {
      refused += 1;
      if (refused > 20) throw new Error(`refused again and again: ${state.verdict.next}`);
      continue;
    }
    heard.push({ piece: state.verdict.next, hit });
  }
};

/** Sizes of side trims and wrong pans that are looked for. */
export const TRIM_SIZES: readonly number[] = [-9, -6, -4, -3, 3, 4, 6, 9];

/** Everything that can be wrong in a cell, one of each, sizes by chance. */
export const wrongsOf = ({ setup, hearing }: HeardCell, random: () => number): readonly Wrong[] =>
  hearing.faults.map(({ fault, channel }) => {
    if (fault === "side-trim")
      return { fault, channel, size: TRIM_SIZES[Math.floor(random() * TRIM_SIZES.length)] as number };
    if (fault !== "wrong-pan") return { fault, channel };
    const planned = setup.channels.find((one) => one.id === channel)?.pan ?? 0;
    for (;;) {
      const size = Math.round(20 * (2 * random() - 1)) / 20;
      if (Math.abs(size - planned) >= 0.5 && Math.abs(size + planned) >= 0.5) return { fault, channel, size };
    }
  });
