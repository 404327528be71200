import { levelOf } from "../../../src/core/level/decibels";
import type { Db } from "../../../src/core/model/units";
import { type PanSettings, panGains } from "../../../src/core/pan/laws";
import type { ReadingPoint } from "../../../src/core/pan/reading";

/** Worked out apart from what is tested. Level at a point of a channel that has 0 dB before its pan. */
export const levelAt = (desk: PanSettings, at: ReadingPoint): Db => {
  if (at === "before pan") return 0;
  const [left, right] = panGains(desk, at.pan);
  return levelOf(at.side === "left" ? left : right);
};
