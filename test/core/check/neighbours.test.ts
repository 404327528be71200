import { describe, expect, it } from "vitest";
import { neighbourChannels } from "../../../src/core/check/neighbours";
import type { Bus, MonitorInput, Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "../inputs/setups";

const KICK = channel("Kick", { kind: "drum", pan: -1 });
const VOX = channel("Vox", { kind: "vocal", inverted: true });
const KEYS = channel("Keys", { lines: 2 });
const [DL, DR] = [side("Drums", "left"), side("Drums", "right")];

const taken = (
  inputs: readonly (MonitorInput | null)[],
  by: 1 | -1,
  more: Partial<Bus> = {},
  channels = [KICK, VOX, KEYS],
) => {
  const s: Setup = setup(channels, [bus("Other", ["Vox"]), bus("Drums", ["Kick"], more)], inputs);
  const drums = s.buses[1] as Bus;
  return neighbourChannels(s, drums, by).flatMap(({ gains }) => gains);
};

describe("inputs taken one too far", () => {
  it("bring the other side to one ear and what lies beyond to the other", () => {
    // One up: the left ear takes the right side, where a kick at hard left is silent, the right ear the voice.
    expect(taken([DL, DR, direct("Vox")], 1)).toEqual([
      [0, 0],
      [0, -1],
    ]);
    // One down: the left ear takes nothing, the right ear the left side.
    expect(taken([DL, DR, direct("Vox")], -1)).toEqual([[0, 1]]);
  });

  it("bring the channels of a channel that lies there, each as it is taken", () => {
    const inputs = (channel: "left" | "right" | "both") => [DL, DR, direct("Keys", channel)];
    expect(taken(inputs("left"), 1)).toEqual([
      [0, 0],
      [0, 1],
    ]);
    expect(taken(inputs("both"), 1)).toEqual([
      [0, 0],
      [0, 1],
      [0, 1],
    ]);
    expect(taken(inputs("right"), 1)).toHaveLength(2);
    // The same channel in both ears is one signal, other channels are two.
    expect(taken([direct("Keys", "left"), DL, DR, direct("Keys", "left")], 1)).toHaveLength(2);
  });

  it("bring the very channel that the input takes", () => {
    // One up: the left ear takes the right side, which has the right channel of the keys only.
    const keys = { sends: [{ channel: "Keys", on: true, level: 0, tap: "post-fader" as const, pan: null }] };
    expect(taken([DL, DR, direct("Keys", "left")], 1, keys)).toEqual([
      [0, 1],
      [1, 0],
    ]);
    expect(taken([DL, DR, direct("Keys", "right")], 1, keys)).toEqual([
      [0, 0],
      [1, 1],
    ]);
  });

  it("keep the trim of the input, and bring nothing of what is off, muted or gone", () => {
    const half = direct("Vox", "both", { trim: 20 * Math.log10(0.5) });
    expect(taken([DL, DR, half], 1)?.[1]?.[1]).toBeCloseTo(-0.5, 12);
    const silent = [[0, 0]];
    expect(taken([DL, DR, direct("Vox", "both", { on: false })], 1)).toEqual(silent);
    expect(taken([DL, DR, direct("Gone")], 1)).toEqual(silent);
    expect(taken([DL, DR, side("Gone", "left")], 1)).toEqual(silent);
    expect(taken([DL, DR, null], 1)).toEqual(silent);
    expect(taken([DL, DR], 1)).toEqual(silent);
    const muted = { ...VOX, muted: true };
    expect(taken([DL, DR, direct("Vox")], 1, {}, [KICK, muted])).toEqual(silent);
  });

  it("are counted from where the sides lie, reversed ones too", () => {
    // The left ear takes the first of the two inputs, which brings the right side, so one down the voice.
    expect(taken([direct("Vox"), DR, DL], -1)).toEqual([
      [-1, 0],
      [0, 0],
    ]);
    expect(taken([direct("Vox"), DL, DR], -1)).toEqual([
      [-1, 0],
      [0, 1],
    ]);
  });

  it("of a bus that is not patched lie between two empty ones", () => {
    expect(taken([], 1)).toEqual([[0, 0]]);
    expect(taken([], -1)).toEqual([[0, 1]]);
    expect(taken([], 1, { swapped: true })).toEqual([[1, 0]]);
    expect(taken([], -1, { swapped: true })).toEqual([[0, 0]]);
    // With one side patched only, it is thought of in the same way.
    expect(taken([direct("Vox"), DL, direct("Vox")], -1)).toEqual([[0, 1]]);
    expect(taken([direct("Vox"), DR, direct("Vox")], -1)).toEqual([[0, 1]]);
    // A mono bus has one input: either way there is nothing.
    expect(taken([], 1, { stereo: false })).toEqual([]);
    expect(taken([], -1, { stereo: false })).toEqual([]);
    expect(taken([DL, direct("Vox")], 1, { stereo: false })).toEqual([[-1, -1]]);
  });
});
