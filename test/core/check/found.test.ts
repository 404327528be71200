import { describe, expect, it } from "vitest";
import { checkOf } from "../../../src/core/check/check";
import type { Fault } from "../../../src/core/check/faults";
import { putIntoSetup } from "../../../src/core/check/found";
import { evaluate } from "../../../src/core/evaluate";
import { patchedOrder } from "../../../src/core/patched";
import type { Setup, Sum } from "../../../src/core/setup";
import { drummer, setupWith } from "./kits";

const patched = setupWith(8, "sine");
const bare: Setup = {
  ...patched,
  monitor: { ...patched.monitor, slots: patched.monitor.slots.map(() => null) },
};
const faultsIn = (setup: Setup): Fault[] => checkOf(setup, drummer).sets.flatMap((s) => s.faults);

const EXPRESSED = [
  "planned",
  "reversed",
  "flipped",
  "folded",
  "inverted",
  "all at centre",
  "source wrong",
  "source missing",
];

describe.each([
  ["a patched pair", patched],
  ["a pair not patched yet", bare],
])("the found state of %s", (_, setup) => {
  const faults = faultsIn(setup);
  const { strikes } = checkOf(setup, drummer);

  it.each(faults.map((f) => [f.id, f] as const))(
    "%s: the image agrees with what the ears get",
    (_id, fault) => {
      const found = putIntoSetup(setup, drummer, fault);
      expect(found !== null).toBe(EXPRESSED.includes(fault.kind));
      if (!found) return;
      const rows = evaluate(found).images[0]?.rows ?? [];
      strikes.forEach((strike, at) => {
        const legs = rows.find((r) => r.source === strike.sources[0])?.legs ?? [0, 0];
        legs.forEach((gain, ear) => {
          expect(gain).toBeCloseTo(fault.images[at]?.legs[ear] as number, 12);
        });
      });
    },
  );

  it("leaves the house alone", () => {
    for (const fault of faults)
      expect(putIntoSetup(setup, drummer, fault)?.sources ?? setup.sources).toBe(setup.sources);
  });
});

it("a reversal found is put into the slots where the pair lies in them", () => {
  const reversed = faultsIn(patched).find((f) => f.kind === "reversed") as Fault;
  const found = putIntoSetup(patched, drummer, reversed) as Setup;
  expect(patchedOrder(patched.monitor, patched.sums[0] as Sum)).toBe("reversed");
  expect(patchedOrder(found.monitor, found.sums[0] as Sum)).toBe("straight");
});

it("polarity found is put in, which levels alone do not show", () => {
  const inverted = faultsIn(patched).find((f) => f.kind === "inverted") as Fault;
  const found = putIntoSetup(patched, drummer, inverted) as Setup;
  expect(faultsIn(found).find((f) => f.kind === "planned")?.images).toEqual(inverted.images);
});

it("nothing is put in for a listener without a sum", () => {
  const [fault] = faultsIn(patched);
  expect(putIntoSetup(patched, { ...drummer, sum: null }, fault as Fault)).toBeNull();
});
