import type { Id, Setup } from "../setup";
import { listed, sentence, slotsSaid, thingCalled } from "../words";
import { applyMoves, groupName } from "./apply";
import { choicesOf } from "./choices";
import { COSTS } from "./costs";
import { lossesOf } from "./losses";
import type { Move } from "./move";
import { cheapest } from "./search";
import { usageOf } from "./usage";

/** One way back under the slot count. */
export interface Fit {
  readonly moves: readonly Move[];
  /** How many slots it frees, at least as many as are missing. */
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
  const source = (id: Id): string => thingCalled(setup, "source", id);
  if (move.move === "fold") return `fold ${thingCalled(setup, move.of, move.id)} to mono`;
  if (move.move === "into") return `put ${source(move.source)} into ${thingCalled(setup, "sum", move.sum)}`;
  if (move.move === "together")
    return `sum ${listed(move.sources.map(source))} to one mono slot, “${groupName(setup, move.sources)}”`;
  return `free ${slotsSaid(move.slots)} (${thingCalled(setup, move.of, move.id)})`;
};

/**
 * The cheapest ways back under the slot count, cheapest first, none with a move that could be left out. The search is exact:
 * no other set of moves on the same things costs less. None when nothing is over the count, or when there is no way.
 * @param most how many at most
 */
export const fits = (setup: Setup, most = MOST): Fit[] => {
  const { over, tooMany } = usageOf(setup);
  if (over.length === 0) return [];
  if (tooMany === 0) {
    const says = `Move ${slotsSaid(over)} into free slots.`;
    return [{ moves: [], frees: 0, cost: 0, says, loses: ["Nothing is lost."] }];
  }
  const choices = choicesOf(setup);
  return cheapest(choices, tooMany, COSTS.newSum, most).map(({ moves: single, groups, cost, frees }) => {
    const moves: Move[] = [
      ...single,
      ...groups.map((group): Move => {
        const things = group.flatMap((i) => choices[i]?.thing ?? []);
        const slots = things.flatMap((t) => t.slots).sort((a, b) => a - b);
        return { move: "together", sources: things.map((t) => t.id), slots };
      }),
    ];
    return {
      moves,
      frees,
      cost,
      says: `${sentence(listed(moves.map((m) => saidOf(setup, m))))}.`,
      loses: moves.flatMap((m) => lossesOf(setup, m)),
    };
  });
};

/** The setup after a fit: the moves made, and what lay beyond the count moved into free slots, pairs as neighbours. */
export const applyFit = (setup: Setup, fit: Fit): Setup => applyMoves(setup, fit.moves);
