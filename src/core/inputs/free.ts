import type { Setup } from "../model/setup";
import { applyMoves } from "./apply";
import { choicesOf } from "./choices";
import { COSTS } from "./costs";
import { type Loss, lossesOf } from "./losses";
import type { Move } from "./move";
import { cheapest } from "./search";
import { usageOf } from "./usage";

/** One way to free inputs. */
export interface WayToFree {
  /** Empty where there is room and what lies beyond the count only has to move. */
  readonly moves: readonly Move[];
  /** How many inputs it frees, at least as many as are missing. */
  readonly frees: number;
  /** Points of `COSTS`, added up. */
  readonly cost: number;
  /** What it loses, in the order of the moves. */
  readonly loses: readonly Loss[];
}

/** How many ways are shown. */
const MOST = 5;

/**
 * The cheapest ways to free inputs, cheapest first, none with a move that could be left out. The search is exact:
 * no other set of moves on the same things costs less. None when nothing is over the count, or when there is no way.
 * @param most how many at most
 */
export const waysToFree = (setup: Setup, most = MOST): WayToFree[] => {
  const { over, tooMany } = usageOf(setup);
  if (over.length === 0) return [];
  if (tooMany === 0) return [{ moves: [], frees: 0, cost: 0, loses: [] }];
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
    return { moves, frees, cost, loses: moves.flatMap((m) => lossesOf(setup, m)) };
  });
};

/** The setup after a way: the moves made, and what lay beyond the count moved into free inputs, pairs as neighbours. */
export const applyWay = (setup: Setup, way: WayToFree): Setup => applyMoves(setup, way.moves);
