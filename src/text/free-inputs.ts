import type { FreeingQuestion, WayToFree } from "../core/allocate/free";
import { type FreeingMove, freeingMoves } from "../core/allocate/free-moves";
import { quoted } from "../core/lib/direction";
import type { Id, Setup } from "../core/model/setup";
import { allocatedBusName, describePlanLosses } from "./allocate";
import { capitalised, feedName, formatFew, formatInputs } from "./words";

const describeMove = (setup: Setup, move: FreeingMove): string => {
  const channel = (id: Id): string => feedName(setup, "channel", id);
  const bus = (id: Id): string => feedName(setup, "bus", id);
  const few = (ids: readonly Id[]): string => formatFew(ids, channel);
  switch (move.move) {
    case "free":
      return `free ${formatInputs(move.inputs)}`;
    case "leave":
      return `turn ${channel(move.channel)} off in ${bus(move.bus)}`;
    case "fold":
      return `fold ${feedName(setup, move.of, move.id)} to mono`;
    case "into":
      return `move ${few(move.channels)} to ${bus(move.bus)}`;
    case "together":
      return `mix ${few(move.channels)} to a new ${move.width === 2 ? "stereo" : "mono"} bus, ${quoted(allocatedBusName(move.bus))}`;
    case "apart":
      return `give ${channel(move.channel)} an input of its own`;
    case "out":
      return `leave out ${channel(move.channel)}`;
  }
};

/** What to do for a way to free inputs, as sentences. */
export const describeWay = (setup: Setup, { problem }: FreeingQuestion, { plan }: WayToFree): string[] =>
  freeingMoves(setup, problem, plan).map((move) => `${capitalised(describeMove(setup, move))}.`);

/** What a way loses that is not lost now, as sentences, worst first. */
export const describeWayLosses = (
  { problem }: FreeingQuestion,
  { plan: { feeds }, loses }: WayToFree,
): string[] => {
  // The moves say already what comes in with others.
  const losses = loses.filter(
    ({ code, channel }) =>
      code !== "own-input-lost" || !loses.some((l) => l.channel === channel && l.code !== code),
  );
  const says = describePlanLosses(problem, { losses, feeds });
  return says.length > 0 ? says : ["Nothing is lost."];
};
