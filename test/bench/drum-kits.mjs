import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";

/*
 * Kits and songs by other people, read where Debian has installed them and never kept here. Packages hydrogen-data
 * (GPL-2 or later) and hydrogen-drumkits; the licence of each kit stands beside it.
 */
const FOLDER = process.env.HYDROGEN_DATA ?? "/usr/share/hydrogen/data";
export const RATE = 44_100;
/** Longest that a hit is heard, s: a cymbal has gone under the next ones by then. */
const LONGEST = 2;

/** What is struck, and which instruments of a song mean it; others, as a cowbell, have no place at the kit. */
const STRUCK = {
  kick: /^kick/i,
  snare: /^snare|^stick/i,
  hat: /^hat closed/i,
  open: /^hat (semi-)?open/i,
  pedal: /^hat pedal/i,
  tom1: /^tom 1/i,
  tom2: /^tom 2/i,
  floor: /^floor tom/i,
  ride: /^ride/i,
  crash: /^crash|^splash/i,
};

/** A kit: its folder, its licence, and how its instruments are called. */
const KITS = {
  GMRockKit: {
    licence: "GPL-2 or later",
    names: [
      "Kick",
      "Snare",
      "Hat Closed",
      "Hat Open",
      "Hat Pedal",
      "Tom 1",
      "Tom 2",
      "Floor Tom",
      "Ride",
      "Crash",
    ],
  },
  "The Black Pearl 1.0": {
    licence: "GPL-2",
    names: [
      "Pearl Kick",
      "Pearl Snare",
      "Sabian Hat Closed",
      "Sabian Hat Open",
      "Sabian Hat Pedal",
      "Pearl Tom 1",
      "Pearl Tom 2",
      "Pearl Tom Floor",
      "Paiste Ride",
      "Sabian Crash",
    ],
  },
  Millo_MultiLayered3: {
    licence: "GPL-2",
    names: [
      "Kick",
      "Snare Rock",
      "Closed HH",
      "Open HH",
      "Pedal HH",
      "Tom Hi",
      "Tom Mid",
      "Tom Low",
      "Ride Jazz",
      "Crash",
    ],
  },
  ForzeeStereo: {
    licence: "GPL-2",
    names: [
      "Kick (",
      "Snare (",
      "Hi-Hat Closed",
      "Hi-Hat Open",
      "Hi-Hat Pedal",
      "Tom High",
      "Tom Mid",
      "Tom Low",
      "Ride (",
      "Crash (",
    ],
  },
  BJA_Pacific: {
    licence: "CC-BY-SA-3.0-US",
    names: [
      "BassDrum",
      "Snare",
      "Hi Hat Closed",
      "Hi Hat Opened",
      "Hi Hat Free",
      "Tom",
      "Tom",
      "Floor Tom",
      "Ride",
      "Crash Left",
    ],
  },
  ColomboAcousticDrumkit: {
    licence: "GPL-2 or later",
    names: [
      "BassDrum",
      "Snare1",
      "Closed HH",
      "Open HH",
      "Pedal HH",
      "Tom Hi",
      "Tom Mid",
      "Tom Low",
      "ride-crash20inch",
      "crash20inch",
    ],
  },
  rumpf_kit_z01_h2: {
    licence: "CC-BY-3.0",
    names: [
      "c3 - bass drum 1",
      "d3 - snare 1",
      "f#3 - hi-hat closed",
      "a#3 - hi-hat open",
      "g#3 - hi-hat pedal",
      "d4 - high tom",
      "c4 - middle tom",
      "b3 - low tom",
      "e4 - cymbal 2",
      "c#4 - crash",
    ],
  },
};

/** Whether the packages are installed. */
export const hasKits = () =>
  Object.keys(KITS).every((kit) => existsSync(join(FOLDER, "drumkits", kit, "drumkit.xml"))) &&
  existsSync(join(FOLDER, "demo_songs"));

/** Under which licence a kit stands. */
export const licenceOf = (kit) => KITS[kit].licence;

const blocks = (xml, tag) => [...xml.matchAll(new RegExp(`<${tag}>(.*?)</${tag}>`, "gs"))].map((m) => m[1]);
const field = (xml, tag) => xml.match(new RegExp(`<${tag}>([^<]*)</${tag}>`))?.[1];
const number = (xml, tag, otherwise) => Number(field(xml, tag) ?? otherwise);

/** The first channel of a file, by sox: it reads WAV, AIFF and FLAC alike. */
const samplesOf = (path) => {
  const args = ["-V1", path, "-t", "f32", "-r", RATE, "-", "remix", 1, "trim", 0, `=${LONGEST}`];
  const { status, stdout, stderr } = spawnSync("sox", args.map(String), { maxBuffer: 2 ** 28 });
  if (status !== 0) throw new Error(`sox, ${path}: ${stderr}`);
  return new Float32Array(stdout.buffer.slice(stdout.byteOffset, stdout.byteOffset + stdout.length));
};

const once = (make) => {
  let made = null;
  return () => {
    made ??= make();
    return made;
  };
};

/** The sounds of one kit, each read when it is first played: for each thing that is struck its layers, softest first, with the strength each ends at. */
export const readKit = (kit) => {
  const folder = join(FOLDER, "drumkits", kit);
  const instruments = blocks(readFileSync(join(folder, "drumkit.xml"), "utf8"), "instrument");
  const layersOf = (name) => {
    const instrument =
      instruments.find((xml) => field(xml, "name") === name) ??
      instruments.find((xml) => field(xml, "name")?.startsWith(name));
    if (!instrument) throw new Error(`${kit} has no ${name}`);
    const volume = number(instrument, "volume", 1) * number(instrument, "gain", 1);
    const layers = blocks(instrument, "layer");
    return (layers.length > 0 ? layers : [instrument])
      .map((xml) => ({
        until: layers.length > 0 ? number(xml, "max", 1) : 1,
        gain: volume * (layers.length > 0 ? number(xml, "gain", 1) : 1),
        samples: once(() => samplesOf(join(folder, field(xml, "filename")))),
      }))
      .sort((a, b) => a.until - b.until);
  };
  return Object.fromEntries(Object.keys(STRUCK).map((what, at) => [what, layersOf(KITS[kit].names[at])]));
};

/** Ticks of a quarter. */
const TICKS = 48;

/** The hits of a song in order: what is struck, when (s), how hard (0…1). */
export const readSong = (name) => {
  const xml = readFileSync(join(FOLDER, "demo_songs", `${name}.h2song`), "utf8");
  const seconds = 60 / number(xml, "bpm") / TICKS;
  const whatOf = new Map(
    blocks(xml, "instrument").map((i) => [
      field(i, "id"),
      Object.keys(STRUCK).find((what) => STRUCK[what].test(field(i, "name"))),
    ]),
  );
  const patterns = new Map(
    blocks(xml, "pattern").map((p) => [
      field(p, "name") ?? field(p, "pattern_name"),
      { size: number(p, "size"), notes: blocks(p, "note") },
    ]),
  );
  const hits = [];
  let tick = 0;
  for (const group of blocks(xml, "group")) {
    const playing = blocks(group, "patternID").map((id) => patterns.get(id));
    for (const note of playing.flatMap((p) => p?.notes ?? [])) {
      const what = whatOf.get(field(note, "instrument"));
      if (what)
        hits.push({
          what,
          at: (tick + number(note, "position")) * seconds,
          strength: number(note, "velocity"),
        });
    }
    tick += Math.max(0, ...playing.map((p) => p?.size ?? 0));
  }
  return { seconds: tick * seconds, hits: hits.sort((a, b) => a.at - b.at) };
};
