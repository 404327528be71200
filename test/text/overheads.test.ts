import { expect, it } from "vitest";
import type { Setup } from "../../src/core/model/setup";
import type { OverheadIssue } from "../../src/core/stereo/overheads";
import { describeFohPan, describeOverheads } from "../../src/text/overheads";
import { kit } from "../core/recommend/setups";

const setup: Setup = kit();
const FLAG: OverheadIssue = {
  code: "crossed",
  where: "foh",
  overheads: ["hat", "ride"],
  change: "overheads",
  channels: ["hat", "ride"],
  hit: "floor",
};
const said = (over: Partial<OverheadIssue> = {}): string => {
  const { says, remedy } = describeOverheads(setup, { ...FLAG, ...over });
  return `${says} ${remedy}`;
};

it("says everything there is to say as the file has it", async () => {
  const lines = [
    said(),
    said({ code: "mis-sided", overheads: ["hat"], channels: ["hat"], where: "m1" }),
    said({ change: "close microphones", channels: ["tom", "floor"] }),
    said({ change: null, channels: [] }),
    said({ change: null, channels: [], hit: null }),
    describeFohPan(setup, { channel: "hat", heard: "left", stands: "right", asDrummer: true }),
    describeFohPan(setup, { channel: "hat", heard: "left", stands: "right", asDrummer: false }),
  ];
  await expect(`${lines.join("\n")}\n`).toMatchFileSnapshot("./overheads.snapshot.txt");
});
