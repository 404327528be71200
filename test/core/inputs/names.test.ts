import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { InputKind } from "../../../src/core/inputs/kinds";
import { type InputName, readName } from "../../../src/core/inputs/names";
import type { PieceKind } from "../../../src/core/model/setup";

/** What is written in a cell of the second column means what stands in the first. Common practice, no source. */
const ABBREVIATIONS: readonly (readonly [kind: InputKind, piece: PieceKind | null, written: string])[] = [
  ["drum", "kick", "kick, kik, kd, bd, bass drum"],
  ["drum", "snare", "snare, snr, sn, sd"],
  ["drum", "hat", "hat, hh, hi-hat, hihat"],
  ["drum", "tom", "tom, t1, t2, rack, rk, high tom, mid tom, low tom"],
  ["drum", "floor", "floor, flr, ft, floor tom"],
  ["drum", "overhead", "oh, o/h, over, overhead, ovhd"],
  ["drum", "ride", "ride"],
  ["drum", "crash", "crash, cym, china, splash"],
  ["drum", "hat", "hh u"],
  ["percussion", "percussion", "perc, conga, bongo, cajon, djembe, timb, shaker, tamb, glock, pad trig"],
  ["bass", null, "bass, bs, bg, b gtr, bass di, bass amp, upright, ub, syn bass"],
  ["guitar", null, "gtr, gt, g1, g2, eg, el gtr, ag, ac, acc gtr, nylon, banjo, mando, uke, slide, modeller"],
  ["keys", null, "keys, kbd, piano, pno, gp, ep, organ, org, rotary hi, rotary lo, synth, syn, pad"],
  ["horn", null, "tpt, trp, trumpet, tbn, bone, sax, as, ts, flute, fl, cl, horn, brass"],
  ["strings", null, "vln, vla, vc, cello, vln 1, str"],
  ["lead-vocal", null, "lv, lead, ld vox"],
  ["vocal", null, "vox, voc, v1, v2, bv, bgv, bkv, choir, Odile vox"],
  ["click", null, "click, clk, metro, count"],
  ["playback", null, "trk, tracks, pb, playback, loop, laptop, pc, stems, sampler"],
  ["video", null, "vid, video, v/t, screen, cam"],
  ["speech", null, "sp, speech, host, mc, lectern, podium, headset, hs, lav, handheld, hh mic mc"],
  ["talkback", null, "tb, talk, talkback, shout, md mic"],
  ["audience", null, "aud, amb, room, crowd"],
  ["effects", null, "fx, verb, rev, dly, return"],
];

describe("an abbreviation of the trade", () => {
  const cases = ABBREVIATIONS.flatMap(([kind, piece, written]) =>
    written.split(", ").map((way) => ({ way, kind, piece })),
  );
  it.each(cases)("$way: $kind", ({ way, kind, piece }) => {
    const spaced = way.replace(/[-/]/g, " ");
    for (const typed of [way, way.toUpperCase(), `7 ${way}`, ` ${way}. `, spaced, `${way} L`])
      expect(readName(typed)).toMatchObject({ kind, piece });
  });

  it.each([
    ["in", "kick in", "Kick In"],
    ["out", "kick out", "KIK OUT"],
    ["sub", "kick sub", "BD sub"],
    ["top", "snare top", "Snr T"],
    ["bottom", "snare bottom", "SN btm"],
    ["bottom", "snare bot", "SD B"],
    ["side", "snare side", "snr side"],
    ["bottom", "hh u", "Hat under"],
    ["high", "rotary hi", "ORG HI"],
    ["low", "rotary lo", "Org Low"],
  ])("microphone %s: %s, %s", (microphone, ...written) => {
    for (const typed of written) expect(readName(typed)).toMatchObject({ microphone, side: null });
  });

  it.each([
    ["left", "OH L, OH left, OH SR, OH stage right, OH S.R., OH HL, OH house left, OHL, L OH, Left OH"],
    ["right", "OH R, OH right, OH SL, OH stage left, OH (SL), OH HR, OH house right, OHR, R OH, OH-R"],
    [null, "OH, OH L/R, OH LR, OH stereo"],
  ])("side %s: %s", (side, written) => {
    for (const typed of written.split(", "))
      expect([typed, readName(typed)]).toMatchObject([typed, { side, kind: "drum", piece: "overhead" }]);
  });
});

type Wanted = Partial<
  Pick<
    InputName,
    "name" | "base" | "channels" | "kind" | "piece" | "microphone" | "side" | "stereo" | "numbers"
  >
>;

/** Lines as they stand on lists. Common practice, no source. */
const LINES: readonly (readonly [typed: string, wanted: Wanted])[] = [
  ["12 Bass DI", { channels: [12], kind: "bass", name: "Bass DI" }],
  ["13-14 Keys", { channels: [13, 14], kind: "keys", stereo: true, name: "Keys" }],
  ["13/14 Keys", { channels: [13, 14], kind: "keys", stereo: true }],
  ["13+14 Keys", { channels: [13, 14], kind: "keys", stereo: true }],
  ["13 – 14: Keys", { channels: [13, 14], kind: "keys", stereo: true, name: "Keys" }],
  ["Keys 13-14", { channels: [13, 14], kind: "keys", stereo: true, name: "Keys", numbers: [] }],
  ["Keys (13/14)", { channels: [13, 14], kind: "keys", stereo: true, name: "Keys" }],
  ["Keys ch 13", { channels: [13], kind: "keys", name: "Keys" }],
  ["Ch 13 Keys", { channels: [13], kind: "keys", name: "Keys" }],
  ["CH13: Keys L", { channels: [13], kind: "keys", name: "Keys L", base: "Keys", side: "left" }],
  ["#7 Hat", { channels: [7], kind: "drum", piece: "hat" }],
  ["13-16 Horns", { channels: [13, 14, 15, 16], kind: "horn", stereo: false }],
  ["Snr Top", { kind: "drum", piece: "snare", microphone: "top", channels: [] }],
  ["2. Snr Top", { channels: [2], kind: "drum", piece: "snare", microphone: "top" }],
  ["3) SNR BTM", { channels: [3], piece: "snare", microphone: "bottom" }],
  ["Top Snare 2", { channels: [], piece: "snare", microphone: "top", numbers: [2] }],
  ["OH SR", { piece: "overhead", side: "left", base: "OH" }],
  ["8 OH SR", { channels: [8], piece: "overhead", side: "left" }],
  ["SR OH ch 8", { channels: [8], piece: "overhead", side: "left", name: "SR OH", base: "OH" }],
  ["9 SL O/H", { channels: [9], piece: "overhead", side: "right", base: "O/H" }],
  ["9 - Overhead House Right", { channels: [9], piece: "overhead", side: "right", base: "Overhead" }],
  ["07_OHL", { channels: [7], piece: "overhead", side: "left", base: "OH" }],
  ["BV 1", { kind: "vocal", numbers: [1], channels: [] }],
  ["21 BV 1", { channels: [21], kind: "vocal", numbers: [1] }],
  ["BV1 Odile", { kind: "vocal", numbers: [1], name: "BV1 Odile" }],
  ["T1", { piece: "tom", numbers: [1] }],
  ["5 T1", { channels: [5], piece: "tom", numbers: [1] }],
  ["6\tT 2", { channels: [6], piece: "tom", numbers: [2] }],
  ["Rack Tom 2", { piece: "tom", numbers: [2], kind: "drum" }],
  ["RT1", { piece: "tom", numbers: [1], side: null }],
  ["Toms 1/2", { piece: "tom", numbers: [1, 2], channels: [] }],
  ["Floor Tom 2 R", { piece: "floor", numbers: [2], side: "right" }],
  ["FloorTom2", { piece: "floor", numbers: [2] }],
  ["Kik In", { piece: "kick", microphone: "in" }],
  ["1 Kik Out", { channels: [1], piece: "kick", microphone: "out" }],
  ["KickIn", { piece: "kick", microphone: "in" }],
  ["snaretop", { piece: "snare", microphone: "top" }],
  ["1 Bass Drum", { channels: [1], kind: "drum", piece: "kick" }],
  ["B.D. in", { kind: "drum", piece: "kick", microphone: "in" }],
  ["Hi-Hat", { piece: "hat" }],
  ["HH Vox 2", { kind: "vocal", piece: null, numbers: [2] }],
  ["HH Mic MC", { kind: "speech", piece: null }],
  ["4 HH 48V", { channels: [4], piece: "hat", numbers: [], name: "HH" }],
  ["Perc OH L", { kind: "percussion", side: "left" }],
  ["Cajón In", { kind: "percussion", piece: "percussion" }],
  ["SPD Pad Trig", { kind: "percussion" }],
  ["Synth Pad", { kind: "keys" }],
  ["Drum Room R", { kind: "drum", piece: null, side: "right" }],
  ["Room L", { kind: "audience", side: "left" }],
  ["Gtr Amb", { kind: "guitar" }],
  ["14 E-Gtr SL", { channels: [14], kind: "guitar", side: "right", base: "E-Gtr" }],
  ["Acc Gtr (Odile)", { kind: "guitar" }],
  ["12-string gtr", { kind: "guitar", channels: [] }],
  ["Lead Gtr", { kind: "guitar" }],
  ["Gtr Vox", { kind: "vocal" }],
  ["Bass Vox", { kind: "vocal" }],
  ["Syn Bass", { kind: "bass" }],
  ["Upright Bass DI", { kind: "bass" }],
  ["Upright Piano Hi", { kind: "keys", microphone: "high" }],
  ["Pno Lo", { kind: "keys", microphone: "low" }],
  ["Rotary Lo", { kind: "keys", microphone: "low", side: null }],
  ["Keys L/R", { kind: "keys", stereo: true, side: null, base: "Keys" }],
  ["Keys 2 St", { kind: "keys", stereo: true, numbers: [2], base: "Keys 2" }],
  ["Bass Tbn", { kind: "horn" }],
  ["Bari Sax 2", { kind: "horn", numbers: [2] }],
  ["Synth Strings", { kind: "keys" }],
  ["Vln 1 Odile", { kind: "strings", numbers: [1] }],
  ["Lead Vox", { kind: "lead-vocal" }],
  ["Soul Choir SR", { kind: "vocal", side: "left" }],
  ["Vox Verb L", { kind: "effects", side: "left", base: "Vox Verb" }],
  ["FX Rtn 1", { kind: "effects", numbers: [1] }],
  ["Click", { kind: "click" }],
  ["Click Trk", { kind: "click" }],
  ["BV Trk", { kind: "playback" }],
  ["Drum Loop L", { kind: "playback", side: "left" }],
  ["30/31 Laptop", { channels: [30, 31], kind: "playback", stereo: true }],
  ["Video PB L", { kind: "video", side: "left" }],
  ["MD Mic", { kind: "talkback" }],
  ["Drum TB", { kind: "talkback" }],
  ["Lectern SL", { kind: "speech", side: "right" }],
  ["Vox HS", { kind: "vocal" }],
  ["Aud SR", { kind: "audience", side: "left" }],
  ["Drums", { kind: "drum", piece: null }],
  ["Theremin", { kind: "other", name: "Theremin", channels: [] }],
  ["31 Odile’s Box", { channels: [31], kind: "other", name: "Odile’s Box" }],
  ["12", { channels: [], kind: "other", name: "12" }],
  ['10" Tom', { channels: [], piece: "tom" }],
  ["0 Kick", { channels: [], piece: "kick" }],
  ["", { channels: [], kind: "other", name: "" }],
];

describe("a line of an input list", () => {
  it.each(LINES)("%s", (typed, wanted) => {
    expect(readName(typed)).toMatchObject({ typed: typed.trim(), ...wanted });
  });

  it("BS is a saxophone behind horns, else a bass", () => {
    expect(readName("9 BS", "horn").kind).toBe("horn");
    expect(readName("9 BS", "drum").kind).toBe("bass");
    expect(readName("9 BS").kind).toBe("bass");
  });

  it("means the same whatever its case, dots, hyphens and blanks", () => {
    const ways = [
      (t: string) => t.toUpperCase(),
      (t: string) => t.toLowerCase(),
      (t: string) => t.replaceAll(" ", "  "),
      (t: string) => t.replace(/(?<=\w) (?=\w)/g, "-"),
      (t: string) => `${t}.`,
    ];
    fc.assert(
      fc.property(fc.constantFrom(...LINES), fc.constantFrom(...ways), ([typed], way) => {
        const { kind, piece, side, microphone, channels, numbers } = readName(typed);
        expect(readName(way(typed))).toMatchObject({ kind, piece, side, microphone, channels, numbers });
      }),
      { numRuns: 2000 },
    );
  });

  it("of any letters is read, and nothing of it is lost", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 60 }), (typed) => {
        const read = readName(typed);
        expect(read.typed).toBe(typed.trim());
        expect(read.channels.every((n) => n >= 1 && Number.isInteger(n))).toBe(true);
        if (typed.trim() !== "") expect(read.name).not.toBe("");
      }),
    );
  });
});
