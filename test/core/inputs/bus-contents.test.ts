import { expect, it } from "vitest";
import { busContents } from "../../../src/core/inputs/bus-contents";
import { exampleSetup } from "../../../src/document/example";

it("buses and channels come by their numbers at the desk, those without behind in the setup’s order", () => {
  const { buses, channels, ...rest } = exampleSetup();
  const numberOf: { readonly [name: string]: readonly number[] } = {
    Snare: [40],
    Hat: [],
    Kick: [],
    "Tom 1": [2],
  };
  const setup = {
    ...rest,
    channels: channels.map((c) => ({ ...c, numbers: numberOf[c.name] ?? c.numbers })),
    buses: [...buses].reverse(),
  };
  const [drums, foldBack] = busContents(setup);
  expect([drums?.bus.name, foldBack?.bus.name]).toEqual(["Drums", "Fold-back"]);
  expect(drums?.contents.map(({ channel }) => channel.name)).toEqual([
    "Tom 1",
    "Tom 2",
    "Floor tom",
    "Overhead L",
    "Overhead R",
    "Snare",
    "Kick",
    "Hat",
  ]);
  expect(foldBack?.contents.map(({ channel, send }) => [channel.name, send.level, send.tap])).toEqual([
    ["Speech", 0, "post-fader"],
    ["Room mic", -3, "pre-fader"],
  ]);
});
