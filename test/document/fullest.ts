import { duplicateBus } from "../../src/document/commands/buses";
import { addChannel } from "../../src/document/commands/channels";
import { addListener } from "../../src/document/commands/listeners";
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
    ...times(LIMITS.channels - example.channels.length, addChannel("m1")),
    ...times(LIMITS.buses - 1, duplicateBus("m1")),
    ...times(LIMITS.listeners - example.listeners.length, addListener()),
  );
  const measured = crowded.channels.slice(0, tracks);
  return {
    ...crowded,
    note: "n".repeat(LIMITS.note),
    recording: {
      name: "Everything",
      seconds: 180,
      channels: measured.map(({ id }) => ({
        channel: id,
        rms: -30,
        gatedRms: -25,
        peak: -10,
        truePeak: -9.5,
        fast: -20,
        slow: -22,
        activity: 0.25,
      })),
      correlation: measured.map((_, row) =>
        measured.map((__, column) => (row === column ? 1 : correlationOf(row, column))),
      ),
    },
  };
};
