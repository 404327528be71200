import type { Id } from "../model/setup";
import type { Mirrored, Own, Parts, RankedPlan, Situation } from "./model";

/** What a plan consists of, with channels by their ids. */
export const partsOfPlan = ({ members, voices }: Situation, { change, choices }: RankedPlan): Parts => {
  const ids = (mirrored: Mirrored): Id[] => mirrored.map((at) => voices[at]?.channel.id ?? "");
  return {
    ...change,
    mirrored: ids(change.mirrored),
    own: choices.flatMap((choice, at): Own[] => {
      const listener = members[at]?.id ?? "";
      if (choice.does === "nothing") return [];
      return choice.does === "flip"
        ? [{ listener, does: choice.does }]
        : [{ listener, ...choice, mirrored: ids(choice.mirrored) }];
    }),
  };
};

/** Key of a recommendation, such as "swap; flip ines": the same parts have the same. */
export const keyOf = ({ swap, fold, panning, mirrored, own }: Parts): string => {
  // Names of channels may hold anything, so they are quoted.
  const pans = (set: readonly Id[]): string => (set.length === 0 ? "" : JSON.stringify(set));
  const words = [
    swap ? "swap" : "",
    fold ? "fold" : "",
    panning === "keep" ? "" : `${panning} ${pans(mirrored)}`,
    ...own.map((o) =>
      o.does === "flip"
        ? `flip ${o.listener}`
        : ["own", o.listener, o.swap ? "swapped" : "", pans(o.mirrored)].filter(Boolean).join(" "),
    ),
  ];
  return words.filter(Boolean).join("; ") || "leave";
};
