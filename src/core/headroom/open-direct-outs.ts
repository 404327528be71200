import type { DirectOutFigures } from "./direct-outs";

/** How many direct outs need a look. */
export interface OpenDirectOuts {
  readonly over: number;
  readonly underTarget: number;
  /** Their channel’s peak is not entered. */
  readonly unknown: number;
}

/** Which direct outs do not fit, or may not. */
export const openDirectOuts = (all: readonly DirectOutFigures[]): OpenDirectOuts => {
  const count = (isIt: (its: DirectOutFigures) => boolean): number => all.filter(isIt).length;
  return {
    over: count(({ lowest }) => lowest.state === "over"),
    underTarget: count(({ lowest }) => lowest.state === "under target"),
    unknown: count(({ lowest }) => lowest.state === "unknown"),
  };
};
