import type { Id, Setup } from "../model/setup";
import { capitalised, feedName, formatInputs, formatList } from "../words";
import { applyMoves, groupName } from "./apply";
import { choicesOf } from "./choices";
import { COSTS } from "./costs";
import { lossesOf } from "./losses";
import type { Move } from "./move";
import { cheapest } from "./search";
import { usageOf } from "./usage";

/** One way back under the input count. */
export interface WayToFree {
  readonly moves: readonly Move[];
  /** How many inputs it frees, at least as many as are missing. */
  readonly frees: number;
  /** Points of `COSTS`, added up. */
  readonly cost: number;
  /** What to do, as a sentence. */
  readonly says: string;
  /** What it loses, in sentences, in the order of the moves. */
  readonly loses: readonly string[];
}

/** How many ways back are shown. */
const MOST = 5;

const saidOf = (setup: Setup, move: Move): string => {
  const channel = (id: Id): string => feedName(setup, "channel", id);
  if (move.move === "fold") return `fold ${feedName(setup, move.of, move.id)} to mono`;
  if (move.move === "into") return `put ${channel(move.channel)} into ${feedName(setup, "bus", move.bus)}`;
  if (move.move === "together")
    return `sum ${formatList(move.channels.map(channel))} to one mono input, “${groupName(setup, move.channels)}”`;
  return `free ${formatInputs(move.inputs)} (${feedName(setup, move.of, move.id)})`;
};

/**
 * The cheapest ways back under the input count, cheapest first, none with a move that could be left out. The search is exact:
 * no other set of moves on the same things costs less. None when nothing is over the count, or when there is no way.
 * @param most how many at most
 */
export const waysToFree = (setup: Setup, most = MOST): WayToFree[] => {
  const { over, tooMany } = usageOf(setup);
  if (over.length === 0) return [];
  if (tooMany === 0) {
    const says = `Move ${formatInputs(over)} into free inputs.`;
    return [{ moves: [], frees: 0, cost: 0, says, loses: ["Nothing is lost."] }];
  }
  const choices = choicesOf(setup);
  return cheapest(choices, tooMany, COSTS.newSum, most).map(({ moves: single, groups, cost, frees }) => {
    const moves: Move[] = [
      ...single,
      ...groups.map((group): Move => {
        const things = group.flatMap((i) => choices[i]?.thing ?? []);
        const inputs = things.flatMap((t) => t.inputs).sort((a, b) => a - b);
        return { move: "together", channels: things.map((t) => t.id), inputs };
      }),
    ];
    return {
      moves,
      frees,
      cost,
      says: `${capitalised(formatList(moves.map((m) => saidOf(setup, m))))}.`,
      loses: moves.flatMap((m) => lossesOf(setup, m)),
    };
  });
};

/** The setup after a fit: the moves made, and what lay beyond the count moved into free inputs, pairs as neighbours. */
export const applyWay = (setup: Setup, fit: WayToFree): Setup => applyMoves(setup, fit.moves);
