import { expect, it } from "vitest";
import { checkOf } from "../../../src/core/check/check";
import { elsewise } from "../../../src/core/check/elsewise";
import { drummer, setupWith } from "./kits";

it("something else goes out from faults of the whole path: what one channel can have does not change it", () => {
  const setup = setupWith(8, "sine");
  // A hat all but at the centre sounds as planned on its wrong side too: one set of both.
  const channels = setup.channels.map((s) => (s.id === "hat" ? { ...s, pan: 0.05 } : s));
  const check = checkOf({ ...setup, channels }, drummer);
  const sets = check.sets
    .map((s) => ({ ...s, faults: s.faults.filter((f) => f.channel === null) }))
    .filter((s) => s.faults.length > 0);
  expect(sets.length).toBeLessThan(check.sets.length);
  expect(sets[0]?.faults.length).toBeLessThan(check.sets[0]?.faults.length ?? 0);
  const heard = check.strikes.map((_, at) => [at % 5, 3]);
  expect(elsewise({ ...check, sets }, heard)).toEqual(elsewise(check, heard));
});
