import { bundle } from "../tools/bundle.mjs";
import { numbers } from "../tools/chance.mjs";
import { RATE, readKit, readSong } from "./drum-kits.mjs";
import { takeOf } from "./drum-takes.mjs";

const core = await bundle("test/bench/levels.ts");

/** Kits and songs the errors are derived from, and those they are only measured on: no maker of a kit is in both. */
export const PARTS = {
  tuned: {
    kits: ["GMRockKit", "The Black Pearl 1.0", "Millo_MultiLayered3", "rumpf_kit_z01_h2"],
    songs: ["GM_kit_demo1", "GM_kit_demo3", "GM_kit_Jazzy"],
  },
  measured: {
    kits: ["ForzeeStereo", "BJA_Pacific", "ColomboAcousticDrumkit"],
    songs: ["GM_kit_demo2", "GM_kit_Diddley", "tutorial_georgyporgy"],
  },
};
/** The figures of level: average RMS with measured and with typical activity, and RMS when everybody plays. */
export const FIGURES = {
  known: "average RMS, activity measured",
  typical: "average RMS, activity typical",
  level: "RMS when everybody plays",
};

/** Least share of the cases that must lie inside the printed error. */
export const LEAST_INSIDE = 0.95;
/** Levels are printed with one decimal. */
const HALF_A_DIGIT = 0.05;
const LAWS = ["sine", "root", "linear"];

/** A setup of the app with so many microphones: sends, pan law and side by chance, the overheads now and then not sent. */
const setupBy = (count, next) => {
  const setup = core.templateSetup(count, next() < 0.5 ? "right" : "left");
  const overheads = new Set(setup.kit.pieces.filter(({ kind }) => kind === "overhead").map(({ id }) => id));
  const pieceOf = new Map(setup.channels.map((channel) => [channel.id, channel.piece]));
  const isClose = count >= 8 && next() < 0.25;
  const [bus] = setup.buses;
  const sends = bus.sends.map((send) => ({
    ...send,
    on: !(isClose && overheads.has(pieceOf.get(send.channel))),
    level: -Math.floor(17 * next()) / 2,
  }));
  const desk = {
    ...setup.desk,
    law: LAWS[Math.floor(next() * LAWS.length)],
    reference: next() < 0.5 ? "sides" : "centre",
  };
  return { ...setup, desk, buses: [{ ...bus, sends }] };
};

/** One take, measured and copied into its channels as the app does it: what stands on screen against what is so. */
const casesOf = async (setup, { tracks, struck }) => {
  const places = setup.channels.map(({ id }) => ({ channel: id, line: 0 }));
  const gains = core.gainsInBus(setup, setup.buses[0], places);
  const outcome = await core.runJob(
    {
      inputs: [{ kind: "decoded", name: "take", rate: RATE, channels: tracks }],
      tracks: gains.map((g, channel) => ({ input: 0, channel, gains: g })),
      align: "start",
    },
    () => {},
  );
  if (outcome.kind === "refused") throw new Error(outcome.why.join(" "));
  const { figures } = outcome.measurement;
  const recording = core.toRecording("take", figures, places);
  const kept = core.keepRecording(recording, true).apply(setup);
  const [bus] = kept.buses;
  const beside = core.predictedOf(kept, bus, figures, places, gains);
  const guessed = { ...kept, recording: null };
  const typical = core.busFigures(guessed, bus);
  const typicalErrors = core.levelErrorsOf(guessed, bus);
  const kinds = new Map(kept.kit.pieces.map((piece) => [piece.id, piece.kind]));
  const activities = kept.channels.flatMap(({ piece }, at) =>
    kinds.get(piece) === "overhead" || struck.has(piece)
      ? [[kinds.get(piece), recording.channels[at].activity]]
      : [],
  );
  const rows = beside.mixes.map(({ mix, rows: list }, at) => {
    const row = (name) => list.find((r) => r.name === name);
    const side = mix === "mono" ? typical.mono : typical.sides[at];
    const { measured } = row("average");
    return {
      mix,
      // Measured minus estimate, with the error that is printed beside the estimate.
      levels: {
        known: { off: -row("average").difference, error: beside.levelErrors.average },
        typical: { off: measured - side.average, error: typicalErrors.average },
        ...(row("level").difference === null
          ? {}
          : { level: { off: -row("level").difference, error: beside.levelErrors.level } }),
      },
      correlated: row("correlated").difference,
      peaks: Object.fromEntries(
        ["likely", "playable", "allAtOnce"].map((name) => [name, row(name).difference]),
      ),
    };
  });
  return { rows, activities };
};

/**
 * Takes of one part, so many a kit, with their cases.
 * @param {"tuned" | "measured"} part
 */
export const takesBy = async (part, times, seed) => {
  const { kits, songs } = PARTS[part];
  const read = songs.map(readSong);
  const takes = [];
  for (const [k, kit] of kits.entries()) {
    const sounds = readKit(kit);
    for (let n = 0; n < times; n += 1) {
      const count = core.MICROPHONE_COUNTS[n % core.MICROPHONE_COUNTS.length];
      const next = numbers(Math.imul(seed + 1000 * k + n, 2654435761));
      const setup = setupBy(count, next);
      const song = Math.floor(next() * read.length);
      const take = takeOf(setup, sounds, read[song], Math.floor(next() * 2 ** 31));
      takes.push({ kit, song: songs[song], count, isDoubled: count >= 10, ...(await casesOf(setup, take)) });
    }
  }
  return takes;
};

/** Cases of one figure over takes. */
export const casesBy = (takes, figure) =>
  takes.flatMap(({ rows }) => rows.flatMap(({ levels }) => levels[figure] ?? []));

/** Share of cases in which the measured level lies inside the printed error. */
export const insideOf = (cases) =>
  cases.filter(({ off, error }) => off >= -error.below - HALF_A_DIGIT && off <= error.above + HALF_A_DIGIT)
    .length / cases.length;

/** Share of the time in which the app takes a kind of drum to play where nobody measured it. */
export const typicalActivity = (kind) => {
  const setup = core.templateSetup(12, "right");
  const piece = setup.kit.pieces.find((one) => one.kind === kind).id;
  return core.activityIn(setup)({ ...setup.channels[0], piece });
};

export const { FOUND_ERRORS } = core;
