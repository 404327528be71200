import { describe, expect, it } from "vitest";
import { checkOf } from "../../../src/core/check/check";
import { FAULTS, type Fault, type FaultRecord } from "../../../src/core/check/faults";
import type { Shares } from "../../../src/core/check/responses";
import type { Bus, Setup } from "../../../src/core/model/setup";
import { templateSetup } from "../../../src/document/templates";
import { drummer, setupWith } from "./kits";

const setup = setupWith(8, "sine");
const check = checkOf(setup, drummer);
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

describe("a check", () => {
  it("weighs candidates by the table of faults, “planned” first", () => {
    expect(check.candidates[0]?.fault).toBe("planned");
    expect(sum(check.candidates.map((c) => c.prior))).toBeCloseTo(1, 12);
    const [planned] = check.candidates;
    for (const { fault, prior } of check.candidates)
      expect(prior / (planned?.prior ?? 0)).toBeCloseTo(FAULTS[fault].weight / FAULTS.planned.weight, 12);
  });

  it("asks for every drum with every action there is a use for", () => {
    expect(check.actions).toEqual(["mute-overheads", "mono", "first-input", "balance-left", "balance-right"]);
    expect(check.probes).toHaveLength(8 * 6);
    const without = (ids: RegExp): Setup => ({
      ...setup,
      channels: setup.channels.filter((s) => !ids.test(s.id)),
    });
    expect(checkOf(without(/^over/), drummer).actions).not.toContain("mute-overheads");
    expect(checkOf(without(/^(?!over)/), drummer).actions).toEqual([
      "first-input",
      "balance-left",
      "balance-right",
    ]);
    expect(checkOf(setup, { ...drummer, mono: true }).actions).toEqual(["mute-overheads", "first-input"]);
    const mono = { ...setup, buses: [{ ...(setup.buses[0] as Bus), stereo: false }] };
    expect(checkOf(mono, drummer).actions).toEqual(["mute-overheads"]);
  });

  it("has one level of the overheads where there are none, else several", () => {
    expect(check.overheads.length).toBeGreaterThan(1);
    expect(sum(check.overheads)).toBeCloseTo(1, 12);
    const close = { ...setup, channels: setup.channels.filter((s) => !s.id.startsWith("over")) };
    expect(checkOf(close, drummer).overheads).toEqual([1]);
  });

  it("shares one list where a fault changes nothing", () => {
    const missing = check.candidates.find((c) => c.id === "missing hat");
    check.probes.forEach(({ piece }, at) => {
      const same = missing?.chances[at] === check.candidates[0]?.chances[at];
      expect(same).toBe(piece !== "hat");
    });
  });

  it("says what no hit can find: one of two microphones at a drum", () => {
    const twelve = templateSetup(12, "right");
    const listener = twelve.listeners.find((l) => l.kind === "drummer") ?? drummer;
    const { unfindable, candidates } = checkOf(twelve, listener);
    const named = unfindable.map(
      ({ fault, channel }) => `${fault} ${twelve.channels.find((s) => s.id === channel)?.name}`,
    );
    expect(named).toContain("missing Snare bottom");
    expect(named).toContain("missing Kick out");
    expect(named).not.toContain("missing Hat");
    expect(candidates.some((c) => unfindable.some((u) => u.id === c.id))).toBe(false);
    expect(check.unfindable).toEqual([]);
  });
});

describe("nothing can be checked", () => {
  it("of the audience, without a bus, without a drum in it", () => {
    const why = (of: Setup, listener = drummer) => checkOf(of, listener).obstacle;
    expect(why(setup, { ...drummer, kind: "audience" })).toBe("audience");
    expect(why(setup, { ...drummer, bus: null })).toBe("no-bus");
    expect(why({ ...setup, buses: [{ ...(setup.buses[0] as Bus), sends: [] }] })).toBe("no-drum");
    expect(why(setup)).toBeNull();
  });
});

it("a table that lacks a fault or an answer does not compile", () => {
  const { planned } = FAULTS;
  // @ts-expect-error every other fault is missing
  const faults: Readonly<Record<Fault, FaultRecord>> = { planned };
  // @ts-expect-error "unclear" is missing
  const shares: Shares = { left: 0, middle: 1, right: 0, nothing: 0 };
  expect([Object.keys(faults), Object.keys(shares)].map((keys) => keys.length)).toEqual([1, 4]);
});
