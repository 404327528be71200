import { type Candidate, type Check, checkOf } from "../../../src/core/check/check";
import type { Hand, LawId, Listener } from "../../../src/core/model/setup";
import type { SetupFile } from "../../../src/document/schema";
import { type MicrophoneCount, templateSetup } from "../../../src/document/templates";
import { type Answerer, hears, isRight, play } from "./simulate";
import { humanAnswer, type Kind } from "./stage";

/** One kit, hand and law. */
export interface Cell {
  readonly name: string;
  readonly setup: SetupFile;
  readonly listener: Listener;
  readonly check: Check;
}

/** A template of the app as it begins, for the drummer. */
export const cellOf = (microphones: MicrophoneCount, hand: Hand, law: LawId): Cell => {
  const begun = templateSetup(microphones, hand);
  const setup = { ...begun, desk: { ...begun.desk, law } };
  const listener = setup.listeners.find((l) => l.kind === "drummer") as Listener;
  return { name: `${microphones} mics, ${hand}, ${law}`, setup, listener, check: checkOf(setup, listener) };
};

/** Somebody who answers in a cell, for a fault. */
export type Drummers = (cell: Cell, candidate: Candidate, random: () => number) => Answerer;

/** The first simulator: the engine's own people and model. */
export const ownModel: Drummers = ({ check }, candidate, random) => hears(check, candidate, random);

/** The second simulator: a stage and people that share nothing with the engine. */
export const onStage =
  (kind: Kind): Drummers =>
  ({ setup, listener }, { fault, channel }, random) => {
    const evening = { setup, fault, channel, overheads: kind.overheads };
    const says = humanAnswer(kind.human(random), evening, listener, random);
    return ({ piece, action }) => says(piece, action);
  };

/** One check that was played to its end. */
export interface Session {
  readonly cell: string;
  readonly id: string;
  readonly fault: string;
  readonly right: boolean;
  readonly sureAndWrong: boolean;
  readonly hits: number;
  /** How often somebody had to do something. */
  readonly actions: number;
  /** Faults named together, "planned" not counted. */
  readonly named: number;
  readonly instead: string;
}

/** Plays one check. */
export const session = (
  cell: Cell,
  candidate: Candidate,
  drummers: Drummers,
  random: () => number,
): Session => {
  const { decision, hits } = play(cell.check, drummers(cell, candidate, random));
  const right = isRight(decision, candidate);
  const suspects = decision.kind === "found" ? decision.found.suspects : [];
  return {
    cell: cell.name,
    id: candidate.id,
    fault: candidate.fault,
    right,
    sureAndWrong: !right && decision.kind === "found" && decision.sure,
    hits: hits.length,
    actions: hits.filter((hit, at) => hit.action && hit.action !== hits[at - 1]?.action).length,
    named: suspects.filter((s) => s.candidate.fault !== "planned").length,
    instead: suspects.map((s) => s.candidate.id).join(" | ") || decision.kind,
  };
};

/** Every fault of a cell so many times, "nothing wrong" oftener. */
export const sessions = (
  cell: Cell,
  drummers: Drummers,
  times: number,
  plannedTimes: number,
  random: () => number,
): Session[] =>
  cell.check.candidates.flatMap((candidate) =>
    Array.from({ length: candidate.fault === "planned" ? plannedTimes : times }, () =>
      session(cell, candidate, drummers, random),
    ),
  );
