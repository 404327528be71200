import { describe, expect, it } from "vitest";
import { beyondDesk, sharedNumbers } from "../../../src/core/inputs/desk-numbers";
import { channelsTyped } from "../../../src/core/inputs/typed";
import type { Piece, Setup } from "../../../src/core/model/setup";
import { channel, setup } from "./setups";

const SNARE: Piece = {
  id: "p1",
  name: "Snare",
  kind: "snare",
  x: 0,
  y: 0,
  limbs: ["hand"],
  player: "drummer",
};
const LIMITS = { channels: 10, name: 20 };
const empty: Setup = { ...setup([], [], []), kit: { hand: "right", yaw: 0, pieces: [SNARE] } };
const typed = (text: string, of = empty) => channelsTyped(text, of, LIMITS);
const brief = (text: string) =>
  typed(text).channels.map((c) => [c.numbers, c.name, c.kind, c.lines, c.piece, c.pan]);

describe("typed channels", () => {
  it("are read line by line", () => {
    expect(brief("12 Bass DI\n13-14 Keys\r\n\n Snr\tTop \nOH SR\nBV 1")).toEqual([
      [[12], "Bass DI", "bass", 1, null, 0],
      [[13, 14], "Keys", "keys", 2, null, 0],
      [[], "Snr Top", "drum", 1, "p1", 0],
      // Stage right is house left.
      [[], "OH SR", "drum", 1, null, -1],
      [[], "BV 1", "vocal", 1, null, 0],
    ]);
  });

  it("are one stereo channel where two lines are its sides", () => {
    expect(brief("13 Keys L\n14 Keys R")).toEqual([[[13, 14], "Keys", "keys", 2, null, 0]]);
    expect(typed("Keys L\nKeys R").channels[0]?.keepSides).toBe(true);
    expect(brief("OH L\nOH R").map(([, name]) => name)).toEqual(["OH L", "OH R"]);
  });

  it("are blank in everything that no name says", () => {
    expect(typed("Bass").channels[0]).toMatchObject({ gatedRms: null, peak: null, fader: 0, muted: false });
    expect(typed(" \n\n")).toEqual({ channels: [], wrong: [], notes: [] });
  });

  it("are new beside those of the same name", () => {
    const of = { ...empty, channels: [channel("s1", { name: "Vox" })] };
    const { channels, notes } = typed("Vox\nVox", of);
    expect(channels.map((c) => c.name)).toEqual(["Vox 2", "Vox 3"]);
    expect(notes).toEqual([
      { code: "same name", name: "Vox", becomes: "Vox 2" },
      { code: "same name", name: "Vox", becomes: "Vox 3" },
    ]);
  });

  it("tell which numbers are taken, and which the desk does not have", () => {
    const of = {
      ...empty,
      desk: { ...empty.desk, channelCount: 16 },
      channels: [1, 2, 2].map((n, at) => channel(`c${at}`, { numbers: [n] })),
    };
    const { notes, wrong } = typed("1 Bass\n16 Keys\n16-17 Horns", of);
    expect(wrong).toEqual([]);
    // That two of the setup share 2 was so before.
    expect(notes).toEqual([
      { code: "same number", number: 1, names: ["c0", "Bass"] },
      { code: "same number", number: 16, names: ["Keys", "Horns"] },
      { code: "beyond desk", names: ["Horns"], channelCount: 16 },
    ]);
  });

  it("are not added where they do not fit", () => {
    const nine = { ...empty, channels: Array.from({ length: 9 }, (_, at) => channel(`c${at}`)) };
    expect(typed("Bass", nine).wrong).toEqual([]);
    expect(typed("Bass\nKeys", nine).wrong).toEqual([{ code: "too many", lines: 2, room: 1, most: 10 }]);
    const long = "x".repeat(21);
    expect(typed("x".repeat(20)).wrong).toEqual([]);
    expect(typed(long).wrong).toEqual([{ code: "long name", name: long, letters: 21, most: 20 }]);
    expect(typed("1-3 Toms").wrong).toEqual([{ code: "many numbers", name: "Toms", numbers: [1, 2, 3] }]);
  });
});

describe("channel numbers", () => {
  const of = (...numbers: number[]) => ({ numbers });
  it("are shared by different channels only", () => {
    const [a, b, c] = [of(5, 5), of(4, 7), of(7)];
    expect(sharedNumbers([a, b, c])).toEqual([{ number: 7, all: [b, c] }]);
    expect(sharedNumbers([of(), of()])).toEqual([]);
  });
  it("are the desk's up to its last", () => {
    expect(beyondDesk([of(), of(8), of(8, 9)], 8)).toEqual([of(8, 9)]);
  });
});
