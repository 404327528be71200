import type { AllocationItem } from "./items";
import type { Charges, LossCode } from "./losses";
import { type AllocationChannel, type BusId, FOLD_BACK, type Width } from "./model";
import { KIND_RULES } from "./rules";
import type { BusNode } from "./tree";

/** Where a channel goes. */
export type Where =
  | { readonly as: "own"; readonly width: Width }
  | { readonly as: "bus"; readonly node: BusNode; readonly width: Width }
  | { readonly as: "out" };

const SHARED: { readonly [own in AllocationItem["rule"]["own"]]: LossCode | null } = {
  must: "must-own-shared",
  prefer: "own-shared",
  "if-left": "spare-own-shared",
  "no-matter": null,
  no: null,
};

/** What a channel loses by sharing with more than its own instrument. */
const sharedCode = ({ rule, channel }: AllocationItem): LossCode | null =>
  rule.own === "prefer" && channel.player !== null && KIND_RULES[channel.kind].playerFirst
    ? "own-voice-shared"
    : SHARED[rule.own];

/** What a channel loses by sharing with more than its own section or family. */
const strangersCode = (item: AllocationItem, { level }: BusNode): LossCode | null => {
  if (level === "fold-back" && item.family !== FOLD_BACK) return "families-share";
  return (level === "fold-back" || level === "family") && item.section !== null ? "sections-share" : null;
};

const foldedCode = ({ stereo, rule }: AllocationItem): LossCode | null => {
  if (stereo === "must") return "sides-lost";
  if (stereo === "prefer") return rule.panned ? "image-folded" : "stereo-folded";
  return null;
};

/** What the sides of a channel lose. On one input of its own a mono channel has its place by the musician’s pan. */
const sidesCode = (
  item: AllocationItem,
  where: Exclude<Where, { as: "out" }>,
  swapped: ReadonlySet<BusId>,
): LossCode | null => {
  if (where.as === "own") return where.width === 1 && item.channel.width === 2 ? foldedCode(item) : null;
  if (where.width === 1) return foldedCode(item);
  return item.channel.keepsSides && swapped.has(where.node.id) ? "sides-lost" : null;
};

/** Whether a channel is apart: alone, or only with what belongs to the same instrument. */
export const isApart = (where: Where): boolean =>
  where.as === "own" || (where.as === "bus" && where.node.level === "instrument");

/** Whether a channel comes in there as it does now. */
const isAsNow = ({ current, currentInputs }: AllocationChannel, where: Where): boolean => {
  if (where.as === "out") return currentInputs.length === 0;
  if (current?.as !== where.as || current.width !== where.width) return false;
  return current.as === "own" || (where.as === "bus" && current.bus === where.node.id);
};

/**
 * What is lost when a channel goes there: the one place that says so, for the search and for the explanation alike.
 * What buses take is charged by `busCharges`.
 */
export const chargesOf = (item: AllocationItem, where: Where, swapped: ReadonlySet<BusId>): Charges => {
  const isHeardNow = item.channel.currentInputs.length > 0;
  const lost = {
    ...(item.aloneNow && !isApart(where) ? { "own-input-lost": 1 } : {}),
    ...(isHeardNow && !isAsNow(item.channel, where) ? { changed: 1 } : {}),
  };
  if (where.as === "out")
    return { ...lost, unheard: item.unheard, "left-out": 1, "early-yields": item.priority };
  const isShared = !isApart(where);
  const codes = [
    isShared ? sharedCode(item) : null,
    where.as === "bus" ? strangersCode(item, where.node) : null,
    sidesCode(item, where, swapped),
  ].filter((code) => code !== null);
  return {
    ...lost,
    ...Object.fromEntries(codes.map((code) => [code, 1])),
    ...(isShared || codes.length > 0 ? { "early-yields": item.priority } : {}),
    ...(where.as === "bus" ? { "channel-shares": 1 } : {}),
    ...(where.as === "own" ? { "input-used": where.width } : {}),
  };
};

/** What is lost by a bus itself. */
export const busCharges = (width: Width): Charges => ({ "bus-made": 1, "input-used": width });

/**
 * Whether a channel may go there at all: by its rule, by what is pinned, and by its own width. What must keep L/R never
 * lies in a bus that is swapped, unless its rule says so.
 */
export const mayGo = (item: AllocationItem, where: Where, swapped: ReadonlySet<BusId>): boolean => {
  const { channel, rule } = item;
  const { pin } = channel;
  if (where.as === "out") return pin === null || pin.as === "out";
  if (where.as === "own")
    return pin === null
      ? where.width <= channel.width
      : pin.as === "own" && pin.width === where.width && where.width <= channel.width;
  const isFoldBack = where.node.level === "fold-back";
  const isOwnFamily = !isFoldBack || item.family === FOLD_BACK;
  const isPinned =
    pin === null || (pin.as === "fold-back" && isFoldBack) || (pin.as === "shared" && isOwnFamily);
  if (!isPinned || rule.shares === "nobody" || (rule.shares === "family" && !isOwnFamily)) return false;
  return !(channel.keepsSides && where.width === 2 && swapped.has(where.node.id)) || rule.maySwap;
};
