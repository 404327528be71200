import { computed, signal } from "@preact/signals";
import { type DeskMove, deskList, deskMoves, kinshipOf } from "../../core/inputs/desk-list";
import { aligned } from "../../document/align";
import { tickedControls, tickOf, ticksByControl } from "../../document/desk-ticks";
import type { SetupFile } from "../../document/schema";
import { current } from "../../document/store";
import { shelf } from "../../shelf/here";
import { planBefore } from "../state";

/** What the desk stands at: nothing known but ticks, the plan before its last change, or another setup. */
export type DeskStart = "ticks" | "change" | { readonly name: string; readonly file: SetupFile };

const chosen = signal<DeskStart | null>(null);

/** Chooses what the desk stands at. */
export const startFrom = (start: DeskStart): void => {
  chosen.value = start;
};

/** The plan before its last change, while that is of the open setup and something differs. */
export const lastPlan = computed<SetupFile | null>(() => {
  const before = planBefore.value;
  return before && before.of === shelf.openId.value && deskMoves(before.file, current.value).length > 0
    ? before.file
    : null;
});

/** What the desk stands at; after a change of the plan that. */
export const start = computed<DeskStart>(() => {
  const wanted = chosen.value ?? "change";
  return wanted === "change" && !lastPlan.value ? "ticks" : wanted;
});

/** The plan that the desk stands at, with the ids of the open setup; null where only ticks are known. */
export const standing = computed<SetupFile | null>(() => {
  const from = start.value;
  if (from === "ticks") return null;
  return from === "change" ? lastPlan.value : aligned(from.file, current.value);
});

/** How much the other setup has in common with the open one; null without another. */
export const kinship = computed(() => {
  const from = start.value;
  return typeof from === "string" ? null : kinshipOf(from.file, current.value);
});

/** What is to be set, in the order of a hand. */
export const listedMoves = computed<readonly DeskMove[]>(() => {
  const from = standing.value;
  if (from) return deskMoves(from, current.value);
  return deskList(current.value, tickedControls(current.value.deskTicks ?? []));
});

/** The tick of a move, if it is ticked as it is to stand. */
export const ticked = computed(() => {
  const ticks = ticksByControl(current.value.deskTicks ?? []);
  return (move: DeskMove) => tickOf(ticks, move);
});
