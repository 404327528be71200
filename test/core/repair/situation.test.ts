import { expect, it } from "vitest";
import type { Bus, Setup } from "../../../src/core/model/setup";
import { repairsFor } from "../../../src/core/repair/repairs";
import { situationOf, talliesOfOthers } from "../../../src/core/repair/situation";
import { AUDIENCE, BUS, channel, DRUMMER, kit, listener, withChannel } from "./setups";

const ranked = (setup: Setup) => repairsFor(situationOf(setup, setup.buses[0] as Bus)).ranked;

it("where the audience matters most, channels are re-panned for the drummer, wherever in the list", () => {
  const keys = channel("keys", { lines: 2, keepSides: true });
  const ines = listener("ines", { facing: 180 });
  const setup: Setup = {
    ...withChannel(kit(), keys),
    preferences: { ...kit().preferences, first: "audience" },
    listeners: [AUDIENCE, ines, listener("theo"), DRUMMER],
  };
  const repan = ranked(setup).find((r) => r.id === "sum, ines:flip");
  expect(repan?.steps.flatMap((s) => (s.step === "pan" ? [s.channel] : []))).toEqual([
    "hat",
    "tom",
    "floor",
    "ride",
  ]);
});

it("what others get is worked out for each set of channel pans, even where ids run together", () => {
  const channels = ["a", "b", "a b"].map((id) => channel(id, { piece: "hat", pan: 0.7 }));
  const setup = kit({
    channels,
    buses: [{ ...BUS, sends: channels.map((s) => ({ channel: s.id, level: -6, pan: null })) }],
  });
  const situation = situationOf(setup, setup.buses[0] as Bus);
  const wrong = (foh: readonly boolean[]): number[] =>
    talliesOfOthers(situation, foh).map((tally) => tally.wrong);
  // The hat stands to the right of the audience.
  expect(wrong([true, true, false])).toEqual([2]);
  expect(wrong([false, false, true])).toEqual([1]);
});
