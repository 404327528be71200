import { describe, expect, it } from "vitest";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import type { Channel } from "../../src/core/model/setup";
import { type MatchCandidate, matchTracks } from "../../src/measure/match";
import { wordsOf } from "../../src/measure/match-words";

const channel = (name: string, lines: 1 | 2 = 1): Channel => ({
  ...BLANK_CHANNEL,
  id: name,
  name,
  kind: "drum",
  lines,
});
const mono = (...names: string[]): MatchCandidate[] =>
  names.map((name, input) => ({ input, channel: 0, name, of: 1 }));
const kit = [
  "Kick in",
  "Kick out",
  "Snare top",
  "Snare bottom",
  "Hat",
  "Tom 1",
  "Tom 2",
  "Floor tom",
  "OH left",
  "OH right",
].map((n) => channel(n));
const found = (candidates: readonly MatchCandidate[], channels: readonly Channel[]) =>
  matchTracks(candidates, channels).map((p) => (p === null ? null : p.channel));

describe("names of files against names of channels", () => {
  const names: readonly [file: string, source: string | null][] = [
    ["01 Kick In.wav", "Kick in"],
    ["KickOut_02.wav", "Kick out"],
    ["BD out.wav", "Kick out"],
    ["bass drum inside.WAV", "Kick in"],
    ["SnareTop.wav", "Snare top"],
    ["sn btm.wav", "Snare bottom"],
    ["HH_02.wav", "Hat"],
    ["hi-hat.wav", "Hat"],
    ["Tom2.wav", "Tom 2"],
    ["T1.wav", "Tom 1"],
    ["07-Rack Tom 2.wav", "Tom 2"],
    ["FT.wav", "Floor tom"],
    ["Floor.wav", "Floor tom"],
    ["OHL.wav", "OH left"],
    ["Overheads R.wav", "OH right"],
    ["oh_right.wav", "OH right"],
    ["Trombone.wav", null],
    ["Untitled.wav", null],
    ["Bass.wav", null],
  ];
  it.each(names)("%s", (file, expected) => {
    expect(found(mono(file), kit)).toEqual([expected]);
  });

  const band = ["Snr.Top", "Lead vox", "BV 2", "Acoustic gtr", "Playback", "Rotary Lo"].map((n) =>
    channel(n),
  );
  it.each([
    ["snare top.wav", "Snr.Top"],
    ["LV.wav", "Lead vox"],
    ["Backing Vocal 2.flac", "BV 2"],
    ["14_AcGtr.wav", "Acoustic gtr"],
    ["Organ Rotary Lo.aif", "Rotary Lo"],
    ["Tracks.mp3", "Playback"],
    ["x_Audio Track 05.wav", null],
  ])("%s, as a list and a recorder may write it", (file, expected) => {
    expect(found(mono(file), band)).toEqual([expected]);
  });

  it("a whole session, with the evening's name in every file", () => {
    const files = [
      "2024-05-04 Hall 01 Kick In.wav",
      "2024-05-04 Hall 02 Kick Out.wav",
      "2024-05-04 Hall 03 Snare Top.wav",
      "2024-05-04 Hall 04 Snare Bot.wav",
      "2024-05-04 Hall 05 HH.wav",
      "2024-05-04 Hall 06 Tom 1.wav",
      "2024-05-04 Hall 07 Tom 2.wav",
      "2024-05-04 Hall 08 Floor.wav",
      "2024-05-04 Hall 09 OH L.wav",
      "2024-05-04 Hall 10 OH R.wav",
    ];
    expect(found(mono(...files), kit)).toEqual(kit.map((s) => s.id));
  });

  it("each channel once: the likest file has it", () => {
    expect(found(mono("Snare.wav", "Snare Top.wav"), [channel("Snare top")])).toEqual([null, "Snare top"]);
  });

  it("equal names: the running number decides", () => {
    const toms = [channel("Tom high"), channel("Tom low")];
    expect(found(mono("02 Tom.wav", "01 Tom.wav"), toms)).toEqual(["Tom low", "Tom high"]);
  });
});

describe("channels", () => {
  const stereo = (name: string): MatchCandidate[] =>
    [0, 1].map((channel) => ({ input: 0, channel, name, of: 2 }));

  it("a two-channel file for a channel of two", () => {
    expect(matchTracks(stereo("Overheads.wav"), [channel("OH", 2)])).toEqual([
      { channel: "OH", line: 0 },
      { channel: "OH", line: 1 },
    ]);
  });

  it("a two-channel file for two channels", () => {
    expect(found(stereo("OH.wav"), kit)).toEqual(["OH left", "OH right"]);
  });

  it("two files for one channel of two channels", () => {
    expect(matchTracks(mono("OH R.wav", "OH L.wav"), [channel("Overheads", 2)])).toEqual([
      { channel: "Overheads", line: 1 },
      { channel: "Overheads", line: 0 },
    ]);
  });

  it("one many-channel file: in the order of the channels", () => {
    const many = Array.from({ length: 12 }, (_, channel) => ({
      input: 0,
      channel,
      name: "Hall.wav",
      of: 12,
    }));
    expect(found(many, kit)).toEqual([...kit.map((s) => s.id), null, null]);
  });
});

describe("corrections", () => {
  it("stand, and what they take is not given again", () => {
    const files = mono("Kick In.wav", "Kick Out.wav");
    const corrected = matchTracks(files, kit, new Map([[1, { channel: "Kick in", line: 0 }]]));
    expect(corrected[1]).toEqual({ channel: "Kick in", line: 0 });
    expect(corrected[0]?.channel).not.toBe("Kick in");
    expect(matchTracks(files, kit, new Map([[0, null]]))[0]).toBeNull();
  });
});

describe("a name taken apart", () => {
  it.each([
    ["07_OHL.wav", ["overhead"], 7, "left"],
    ["SD Top Mic.wav", ["snare", "top"], null, null],
    ["FloorTom2 R.wav", ["floor", "tom"], null, "right"],
  ] as const)("%s", (name, words, running, side) => {
    const taken = wordsOf(name);
    expect([...taken.words].sort()).toEqual(words);
    expect(taken.running).toBe(running);
    expect(taken.side).toBe(side);
  });
});
