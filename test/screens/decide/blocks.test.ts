import { describe, expect, it } from "vitest";
import type { Pin } from "../../../src/core/allocate/model";
import { type AllocationPlan, bestPlan } from "../../../src/core/allocate/plans";
import { blocksOf, choiceOf, pinBy, pinOf } from "../../../src/screens/decide/blocks";
import { channel, problem } from "../../core/allocate/problems";

const show = problem(6, [
  channel("Kick", "kick"),
  channel("Hat", "drum"),
  channel("Tom", "drum"),
  channel("Ride", "drum"),
  channel("Bass", "bass"),
]);
const plan = bestPlan(show) as AllocationPlan;

describe("the blocks of a plan", () => {
  it("are its inputs in order, free ones among them", () => {
    expect(blocksOf(plan).map((b) => [b.inputs, b.feed?.channels ?? null])).toEqual([
      [[1], ["Kick"]],
      [[2], null],
      [
        [3, 4],
        ["Hat", "Ride", "Tom"],
      ],
      [[5], ["Bass"]],
      [[6], null],
    ]);
  });

  it("stay where they are when they are pinned and the rest is solved again", () => {
    for (const feed of plan.feeds) {
      const pin = pinOf(feed);
      const pinned =
        pin?.of === "bus"
          ? { ...show, busPins: [pin.pin] }
          : {
              ...show,
              channels: show.channels.map((c) => (c.id === pin?.channel ? { ...c, pin: pin.pin } : c)),
            };
      // Something new wants in.
      const more = bestPlan({ ...pinned, channels: [...pinned.channels, channel("Snare", "snare")] });
      const same = more?.feeds.find((f) => f.inputs[0] === feed.inputs[0]);
      expect([same?.width, same?.bus?.id]).toEqual([feed.width, feed.bus?.id]);
      expect(same?.channels).toEqual(expect.arrayContaining(feed.bus ? ["Hat"] : [...feed.channels]));
    }
  });
});

describe("the choice of a pin", () => {
  const pins: (Pin | null)[] = [
    null,
    { as: "own", width: 1, input: null },
    { as: "own", width: 2, input: null },
    { as: "own", width: 1, input: 3 },
    { as: "shared" },
    { as: "fold-back" },
    { as: "out" },
  ];
  it("stands for the pin it was read from, and for no other", () => {
    for (const pin of pins) expect(pinBy(choiceOf(pin), pin)).toEqual(pin);
    expect(new Set(pins.map(choiceOf)).size).toBe(pins.length);
  });
});
