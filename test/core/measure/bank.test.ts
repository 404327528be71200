import { describe, expect, it } from "vitest";
import { newBank } from "../../../src/core/measure/bank";
import { PLAIN_LOOPS } from "../../../src/core/measure/plain-loops";
import { expectNear } from "../../near";

/** So few samples a second that one step has four. */
const RATE = 80;

describe("the stretches of 400 ms", () => {
  it("are not kept where they would be too many; the levels are known as ever", () => {
    // Two million pairs and more: too many in the first block already. The first track alone sounds.
    const gains = Array.from({ length: 2048 }, () => [1, 0] as const);
    const bank = newBank(RATE, gains, PLAIN_LOOPS);
    bank.rows[0]?.fill(0.5, bank.start, bank.start + bank.step);
    bank.push(bank.step);
    const { blocks, mixes } = bank.finish();
    expect(blocks).toBeNull();
    expectNear(mixes.left.rms, 20 * Math.log10(0.5), 1e-9);
    expectNear(mixes.left.gatedRms, 20 * Math.log10(0.5), 1e-6);
  });
});
