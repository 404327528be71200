import { describe, expect, it } from "vitest";
import { exchangedLike } from "../../../src/core/hear/bus-sides";
import type { Bus } from "../../../src/core/model/setup";
import { bandSetup } from "../../document/band";

const setup = bandSetup();
const bus = setup.buses.find((one) => one.stereo) as Bus;
const bare = { ...setup, monitor: { ...setup.monitor, inputs: [] } };
const straight = { flipped: false, mono: false };

describe("L and R of an input", () => {
  it("are those of the bus at its outputs, whatever is behind them", () => {
    const far = { flipped: true, mono: true };
    expect(exchangedLike(bare, { ...bus, swapped: true }, far, "bus", [1, 2])).toEqual([1, 2]);
  });

  it.each([
    [false, false, [1, 2]],
    [true, false, [2, 1]],
    [false, true, [2, 1]],
    [true, true, [1, 2]],
  ])("are those that a mixer brings: swapped %s, flipped %s", (swapped, flipped, brought) => {
    const listener = { ...straight, flipped };
    expect(exchangedLike(bare, { ...bus, swapped }, listener, "mixer", [1, 2])).toEqual(brought);
  });

  it("are neither where the mixer makes one of both", () => {
    expect(exchangedLike(bare, bus, { ...straight, mono: true }, "mixer", [1, 2])).toBe(null);
  });
});
