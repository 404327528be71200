import { describe, expect, it } from "vitest";
import { applyEdits, issue } from "../../../src/core/inputs/issue";
import { patchIssues } from "../../../src/core/inputs/issues";
import { bus, channel, direct, isOff, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const VOX = channel("Vox", { kind: "vocal" });
const KEYS = channel("Keys", { lines: 2 });
const [DL, DR] = [side("Drums", "left"), side("Drums", "right")];
const KL = direct("Keys", "left");

describe("an issue", () => {
  it("leaves empty what it does not concern", () => {
    expect(issue("only one side", "warn", {}, { missing: "left" })).toEqual({
      code: "only one side",
      severity: "warn",
      inputs: [],
      channels: [],
      buses: [],
      listeners: [],
      values: { missing: "left" },
    });
  });

  it("is mended in its order: inputs, beyond the last one too, and what is meant", () => {
    const s = setup([KICK, KEYS], [bus("Other", ["Kick"]), bus("Drums", ["Kick"])], [DL]);
    expect(applyEdits(s, [])).toBe(s);
    const after = applyEdits(s, [
      { edit: "input", index: 3, to: DR },
      { edit: "input", index: 1, to: KL },
      { edit: "meant", bus: "Drums", swapped: true },
    ]);
    expect(after.monitor.inputs).toEqual([DL, KL, null, DR]);
    expect(after.buses.map((m) => [m.id, m.swapped])).toEqual([
      ["Other", false],
      ["Drums", true],
    ]);
    expect(applyEdits(s, [{ edit: "input", index: 1, to: null }]).monitor.inputs).toEqual([DL, null]);
  });

  it("stands with the worst first, then by its input; what has no input last", () => {
    const s = setup(
      [KICK, VOX, channel("Bass"), KEYS],
      [],
      [direct("Kick"), isOff(direct("Vox")), KL, direct("Kick", "both", { on: false })],
    );
    expect(patchIssues(s).map((f) => [f.severity, f.code, f.inputs[0]])).toEqual([
      ["fault", "only one side", 2],
      ["warn", "patched twice", 0],
      ["warn", "off", 1],
      ["warn", "unfed channel", undefined],
      ["note", "no bus", undefined],
    ]);
  });
});
