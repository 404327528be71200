import { expect, it } from "vitest";
import { channelsTyped } from "../../src/core/inputs/typed";
import { describeTyped, describeTypedNote } from "../../src/text/typed";
import { channel, setup } from "../core/inputs/setups";

const of = { ...setup([channel("s1", { name: "Vox", numbers: [1] })], [], []) };
const desk = { ...of.desk, channelCount: 16 };
const typed = (text: string, most = 10) => channelsTyped(text, { ...of, desk }, { channels: most, name: 30 });

it("what was understood of typed lines is held", () => {
  expect(typed("12 Bass DI\n13-14 Keys\nOH SR").channels.map((c) => describeTyped(of, c))).toEqual([
    "12 Bass DI: Bass, mono",
    "13–14 Keys: Keys, stereo",
    "OH SR: Drum, mono, pan L100",
  ]);
});

it("what is to be said of typed lines is held", () => {
  const lines = (text: string, most?: number) => {
    const { wrong, notes } = typed(text, most);
    return [...wrong, ...notes].map(describeTypedNote);
  };
  expect(lines("1 Vox\n17 Keys")).toEqual([
    "There is a Vox already: the new channel becomes Vox 2.",
    "Vox and Vox 2 have the same channel number, 1. Correct the line, or the channel later.",
    "Keys: channel number beyond the desk’s last, 16. Correct the line, or the channel count under Desk.",
  ]);
  expect(lines(`1-3 Toms\n${"x".repeat(31)}`, 2)).toEqual([
    "Toms has 3 channel numbers. Allowed: one, or two for a stereo channel. Give each channel its own line.",
    "“xxxxxxxxxxxxxxxxxxxxxxxx…” has 31 characters. Allowed: 30. Shorten it.",
    "2 channels to add, but there is room for 1: a setup holds up to 2. Remove some lines.",
  ]);
});
