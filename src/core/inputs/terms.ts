import type { PieceKind } from "../model/setup";
import type { Side } from "../model/units";
import type { InputKind, MicrophoneRole } from "./kinds";

/** One word of the trade and what it says. */
export interface Term {
  /** The word in the one spelling by which names are compared. */
  readonly word: string;
  /** Every way to write it; case, dots, hyphens and blanks do not matter, nor does a plural s. */
  readonly written: readonly string[];
  readonly kind?: InputKind;
  readonly piece?: PieceKind;
  readonly role?: MicrophoneRole;
  /** Side of FOH; "both" for a stereo input in one line. */
  readonly side?: Side | "both";
  /** Decides only where no other word of the name does: "lead" in "Lead Gtr". */
  readonly weak?: boolean;
  /** Read so only with a number behind it: "T1". */
  readonly numbered?: boolean;
  /** Read so only somewhere behind a word of one of these pieces: "b" in "Snr b". */
  readonly behind?: readonly PieceKind[];
  /** Read so only in the line behind one of this kind: "BS" behind horns. */
  readonly after?: InputKind;
}

/** Terms that say the same but for their word: "word: ways to write it", or only the ways, the first being the word. */
const terms = (says: Omit<Term, "word" | "written">, ...lines: readonly string[]): Term[] =>
  lines.map((line) => {
    const [first = "", ways = first] = line.split(": ");
    const written = ways.split(", ");
    return { ...says, word: first === ways ? (written[0] as string) : first, written };
  });

const UNDER_AND_OVER: readonly PieceKind[] = ["snare", "tom", "floor"];
const CYMBALS: readonly PieceKind[] = ["hat", "ride", "crash"];

/** How inputs are written. Common practice, no source. Of terms written alike, the first that may be read so counts. */
export const TERMS: readonly Term[] = [
  ...terms({ kind: "drum", piece: "kick" }, "kick, kik, kck, kd, bd, bass drum, kick drum, gran cassa"),
  ...terms({ kind: "drum", piece: "snare" }, "snare, snare drum, snr, sn, sd"),
  ...terms({ kind: "drum", piece: "hat" }, "hat, hh, hi hat, high hat"),
  ...terms({ kind: "drum", piece: "tom" }, "tom, tm, rack, rk, rack tom, r tom"),
  ...terms({ kind: "drum", piece: "tom", numbered: true }, "tom: t, rt"),
  ...terms({ kind: "drum", piece: "floor" }, "floor tom, floor, flr, ft, flr tom, f tom"),
  ...terms({ kind: "drum", piece: "overhead" }, "overhead, oh, over, ovhd, ovh"),
  ...terms({ kind: "drum", piece: "ride" }, "ride, rd"),
  ...terms({ kind: "drum", piece: "crash" }, "crash, cr", "cymbal, cym, cymb", "china", "splash"),
  ...terms({ kind: "drum" }, "room: drum room, drums room, kit room, drum amb, drums amb, kit amb"),
  ...terms({ kind: "drum", weak: true }, "drum, dr, drm, kit, drum kit, e kit"),

  ...terms(
    { kind: "percussion", piece: "percussion" },
    ...["percussion, perc", "conga", "bongo", "cajon", "djembe", "timbale, timb", "shaker, shkr"],
    ...["tambourine, tamb", "glock, glockenspiel", "cowbell", "chime", "timpani", "vibe, vibraphone"],
    ...["marimba", "xylo, xylophone", "triangle", "tabla", "wood block, block", "steel pan"],
    "drum pad, pad trig, pad trigger, e pad, e drum, perc pad",
  ),
  ...terms({ kind: "percussion", piece: "percussion", weak: true }, "trigger, trig"),

  ...terms({ kind: "horn", after: "horn" }, "sax: bs"),
  ...terms(
    { kind: "bass" },
    "bass, bs, bg, b gtr, bass gtr, bass gt, bass guitar, e bass, el bass, upright, upright bass, ub, double bass, dbl bass, string bass, contrabass",
    "synth bass, syn bass, key bass, keys bass, bass synth, bass syn",
  ),

  ...terms(
    { kind: "guitar" },
    "electric guitar: eg, el, el gtr, e gtr, elec gtr, electric gtr, electric guitar",
    "acoustic guitar: ag, ac, ac gtr, acc gtr, a gtr, acoustic gtr, acoustic guitar",
    ...["guitar, gtr, gt, git, modeller, modeler", "nylon", "banjo", "mando, mandolin", "uke, ukulele"],
    ...["dobro", "pedal steel, lap steel, steel gtr"],
  ),
  ...terms({ kind: "guitar", numbered: true }, "guitar: g"),
  ...terms({ kind: "guitar", weak: true }, "acoustic, acc", "electric, elec", "slide"),

  ...terms(
    { kind: "keys" },
    "piano, pno, gp, grand, grand piano, upright piano",
    "electric piano, ep, e piano, e pno, el piano, el pno",
    ...["organ, org", "rotary, rotary horn, rotor", "synth, syn, synthesizer"],
    "keys, key, kbd, keyb, keyboard, clav, accordion, melodica, harmonium",
  ),
  ...terms({ kind: "keys", weak: true }, "pad"),

  ...terms(
    { kind: "horn" },
    ...["trumpet, tpt, trp, cornet", "flugel, flugelhorn", "trombone, tbn, trb, bone"],
    "sax, saxophone, as, ts, alto sax, tenor sax, bari sax, sop sax",
    ...["flute, fl", "clarinet, cl, clar", "horn, hrn", "brass", "tuba", "oboe", "bassoon", "piccolo"],
  ),
  ...terms(
    { kind: "strings" },
    "violin, vln, vn, fiddle",
    "viola, vla",
    "cello, vc",
    "strings, string, str",
    "harp",
  ),

  ...terms(
    { kind: "lead-vocal" },
    "lead vocal: lv, ld vox, ld voc, ld vocal, lead vox, lead voc, lead vocal, lead voice",
  ),
  ...terms(
    { kind: "vocal" },
    "backing vocal: bv, bgv, bkv, bk vox, backing vox, backing voc, backing vocal, backing voice",
    ...["vocal, vox, voc, voice, vx, singer, rap", "choir"],
  ),
  ...terms({ kind: "vocal", numbered: true }, "vocal: v"),
  ...terms({ kind: "lead-vocal", weak: true }, "lead, ld"),
  ...terms({ kind: "vocal", weak: true }, "backing, harmony", "soprano", "alto", "tenor"),

  ...terms(
    { kind: "speech" },
    "speech, sp, host, mc, presenter, announce, announcer, spoken",
    "lectern, podium",
  ),
  ...terms({ kind: "speech", weak: true }, "headset, hs", "lavalier, lav", "handheld"),

  ...terms({ kind: "talkback" }, "talkback, tb, talk, shout, md mic, md talk"),
  ...terms({ kind: "click" }, "click, clk, metro, metronome, count, count in"),
  ...terms(
    { kind: "playback" },
    "playback, trk, track, tracks, pb, pbk, backing track, backing trk, loop, laptop, computer, pc, stem, sampler, sample, sfx",
  ),
  ...terms({ kind: "video" }, "video, vid, vt, screen, cam, camera"),
  ...terms({ kind: "audience" }, "audience, aud, crowd"),
  ...terms({ kind: "audience", weak: true }, "room, rm, amb, ambience, ambient"),
  ...terms(
    { kind: "effects" },
    "effects, effect, fx, verb, reverb, rev, dly, delay, echo, return, rtn, ret, fx return, fx rtn",
  ),

  ...terms({ role: "in" }, "in, inside"),
  ...terms({ role: "out" }, "out, outside"),
  ...terms({ role: "sub" }, "sub"),
  ...terms({ role: "top" }, "top"),
  ...terms({ role: "top", behind: UNDER_AND_OVER }, "top: t"),
  ...terms({ role: "bottom" }, "bottom, btm, bot, under"),
  ...terms({ role: "bottom", behind: UNDER_AND_OVER }, "bottom: b"),
  ...terms({ role: "bottom", behind: CYMBALS }, "bottom: u"),
  ...terms({ role: "side" }, "side"),
  ...terms({ role: "high" }, "high, hi"),
  ...terms({ role: "mid" }, "mid"),
  ...terms({ role: "low" }, "low, lo"),

  // The stage's sides are those of who stands on it and faces FOH: stage right is house left.
  ...terms({ side: "left" }, "left, l, lt, hl, house left, house l, sr, stage right, stage r"),
  ...terms({ side: "right" }, "right, r, rt, hr, house right, house r, sl, stage left, stage l"),
  ...terms({ side: "both" }, "stereo, st, lr, l r"),
];
