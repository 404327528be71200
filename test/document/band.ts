import { exampleSetup } from "../../src/document/example";
import type { SetupFile } from "../../src/document/schema";

/** The worked example without its fold-back: one bus, eighteen channels, two free inputs, no port entered. */
export const bandSetup = (): SetupFile => {
  const example = exampleSetup();
  const inFoldBack = new Set(example.buses.find((b) => b.id === "m2")?.sends.map((s) => s.channel));
  return {
    ...example,
    channels: example.channels.filter((c) => !inFoldBack.has(c.id)),
    buses: example.buses.filter((b) => b.id !== "m2"),
    monitor: {
      ...example.monitor,
      inputs: example.monitor.inputs.map(
        (input) =>
          input && (input.feed.kind === "bus" && input.feed.bus === "m2" ? null : { ...input, port: null }),
      ),
    },
  };
};
