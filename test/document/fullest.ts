import { addListener } from "../../src/document/commands/listeners";
import { addSource } from "../../src/document/commands/sources";
import { duplicateSum } from "../../src/document/commands/sums";
import { exampleSetup } from "../../src/document/example";
import { LIMITS } from "../../src/document/limits";
import type { SetupFile } from "../../src/document/schema";
import { applied } from "./commands";

const times = <T>(count: number, item: T): T[] => Array.from({ length: count }, () => item);

/** A setup with as much of everything as one holds, and figures of a recording of so many tracks. */
export const fullest = (
  tracks: number,
  correlationOf: (row: number, column: number) => number,
): SetupFile => {
  const example = exampleSetup();
  const crowded = applied(
    example,
    ...times(LIMITS.sources - example.sources.length, addSource("m1")),
    ...times(LIMITS.sums - 1, duplicateSum("m1")),
    ...times(LIMITS.listeners - example.listeners.length, addListener()),
  );
  const measured = crowded.sources.slice(0, tracks);
  return {
    ...crowded,
    note: "n".repeat(LIMITS.note),
    recording: {
      name: "Everything",
      seconds: 180,
      sources: measured.map(({ id }) => ({
        source: id,
        rms: -30,
        playing: -25,
        peak: -10,
        truePeak: -9.5,
        fast: -20,
        slow: -22,
      })),
      correlation: measured.map((_, row) =>
        measured.map((__, column) => (row === column ? 1 : correlationOf(row, column))),
      ),
    },
  };
};
