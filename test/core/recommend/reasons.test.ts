import { describe, expect, it } from "vitest";
import type { Setup } from "../../../src/core/model/setup";
import type { Recommendation } from "../../../src/core/recommend/model";
import { type Reasons, reasonsFor } from "../../../src/core/recommend/reasons";
import type { Tally } from "../../../src/core/stereo/placement";
import { MONITOR_REST } from "../desk";
import { all, busOf, crossed, heardBy, wishing, withBus } from "./ranked";
import { AUDIENCE, channel, DRUMMER, kit, listener, randomSetup, side, withChannel } from "./setups";

const reasons = (setup: Setup): Reasons => reasonsFor(setup, busOf(setup), all(setup));

describe("reasons", () => {
  it("say why there is nothing to do, where something could not be done", () => {
    expect(reasons(withBus(kit(), { sends: [] })).nothing).toBe("no channel");
    const muted = kit().channels.map((s) => ({ ...s, muted: true }));
    expect(reasons({ ...kit(), channels: muted }).nothing).toBe("no channel");
    expect(reasons({ ...kit(), listeners: [AUDIENCE, { ...DRUMMER, bus: null }] }).nothing).toBe("nobody");
    expect(reasons(withBus(kit(), { stereo: false })).nothing).toBe("mono");
    expect(reasons(withBus(kit(), { folded: true })).nothing).toBe("folded");
    expect(reasons(kit()).nothing).toBeNull();
    // Nobody hears it, and yet there is something to do at FOH.
    expect(reasons({ ...crossed(), listeners: [AUDIENCE, { ...DRUMMER, bus: null }] }).nothing).toBeNull();
  });

  it("say whether the first listener decides", () => {
    const rafi = (over: object) =>
      reasons(wishing(heardBy(kit(), listener("rafi", over)), { first: "rafi" })).first;
    expect(rafi({ facing: 90 })?.decides).toBe("side-on");
    expect(rafi({ facing: 90, bus: null })?.decides).toBe("hears nothing");
    expect(reasons(kit()).first).toEqual({
      listener: "mara",
      decides: "decides",
      wrong: [4, 0],
      flat: [0, 0],
    });
    expect(reasons(wishing(kit(), { first: "nobody" })).first).toBeNull();
    expect(reasons(wishing(kit(), { first: "nobody" })).others).toEqual({ wrong: [4, 0], flat: [0, 0] });
  });

  it("say what speaks against the second, the heaviest first", () => {
    expect(reasons(kit()).against).toEqual({ by: "wrong", for: "first", more: 4 });
    const keys = channel("keys", { lines: 2, keepSides: true });
    const ines = heardBy(withChannel(kit(), keys), listener("ines", { facing: 180 }));
    expect(reasons(ines).against).toEqual({ by: "wrong", for: "others", more: 1 });
    const monitor = {
      inputCount: 2,
      inputs: [side("m1", "left", 1), side("m1", "right")],
      maxInputDbu: 20,
      ...MONITOR_REST,
    };
    const trims = kit({ monitor });
    expect(reasons(heardBy(trims, listener("tobi"))).against).toEqual({ by: "moves", more: 1 });
  });

  it("are what the outcomes say, on random setups", () => {
    const bad = ({ wrong, sidesLost }: Tally): number => wrong + sidesLost;
    let drawbacks = 0;
    for (let seed = 0; seed < 400; seed += 1) {
      const setup = randomSetup(seed);
      const found = all(setup);
      const { first, others, against } = reasonsFor(setup, busOf(setup), found);
      const [best, next] = found as [Recommendation, Recommendation | undefined];
      const leave = found.find((r) => r.id === "leave") as Recommendation;
      const totals = (of: Recommendation, isFirst: boolean): [number, number] => {
        const its = of.outcomes.filter((o) => (o.listener === setup.preferences.first) === isFirst);
        return [
          its.reduce((sum, o) => sum + bad(o.tally), 0),
          its.reduce((sum, o) => sum + o.tally.centred, 0),
        ];
      };
      const pair = (isFirst: boolean, at: 0 | 1) => [totals(leave, isFirst)[at], totals(best, isFirst)[at]];
      expect([first?.wrong, first?.flat], `seed ${seed}`).toEqual([pair(true, 0), pair(true, 1)]);
      expect([others.wrong, others.flat], `seed ${seed}`).toEqual([pair(false, 0), pair(false, 1)]);
      expect(against === null).toBe(next === undefined);
      if (against) {
        drawbacks += 1;
        expect(against.more, `seed ${seed}`).toBeGreaterThan(0);
      }
    }
    expect(drawbacks).toBeGreaterThan(100);
  });
});
