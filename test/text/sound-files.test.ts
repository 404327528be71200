import { expect, it } from "vitest";
import { describeSoundFile, type SoundFileNote, type WavNote } from "../../src/text/sound-files";
import { describeWorkerTrouble } from "../../src/text/worker-fault";
import { heldSentences, type OfEach } from "./of-each";

const name = "take.wav";
const allowed = [1, 64] as const;

const WAV: OfEach<WavNote> = {
  empty: [{ code: "empty" }],
  reversed: [{ code: "reversed", head: "RIFX" }],
  "other kind": [{ code: "other kind", head: "RIFF", kind: "AVI " }],
  "no WAV": [{ code: "no WAV", begins: "Hello wo", heads: ["RIFF", "RF64", "BW64"] }],
  "many chunks": [{ code: "many chunks", most: 1000 }],
  "eight bits": [{ code: "eight bits" }],
  width: [
    { code: "width", bits: 32, width: 2, coding: "integer" },
    { code: "width", bits: 24, width: 3, coding: "float" },
  ],
  "short format": [{ code: "short format", length: 8, least: 16 }],
  coding: [2, 6, 7, 17, 49, 80, 85, 8193, null].map((tag) => ({ code: "coding", tag })),
  channels: [{ code: "channels", channels: 65, allowed }],
  rate: [{ code: "rate", rate: 4000, allowed: [8000, 192_000] }],
  frame: [{ code: "frame", frameBytes: 3, channels: 2 }],
  "no format": [{ code: "no format" }],
  "no data": [{ code: "no data", size: 36 }],
  "empty data": [{ code: "empty data", at: 36 }],
  "no length": [{ code: "no length", seconds: 0.1 }],
  cut: [{ code: "cut", promised: 1, held: 47_999 / 48_000 }],
  "part frame": [{ code: "part frame", rest: 2 }],
};

const FILES: OfEach<SoundFileNote> = {
  wav: Object.values(WAV)
    .flat()
    .map((note) => ({ code: "wav", name, note })),
  gone: [{ code: "gone", name }],
  cut: [{ code: "cut", name: "a.flac", promised: 90, held: 60 }],
  decoded: [{ code: "decoded", name: "a.flac", rate: 48_000 }],
  "no audio": [{ code: "no audio", name }],
  unknown: [{ code: "unknown", name }],
  large: [{ code: "large", name, bytes: 2 ** 27 + 4, most: 2 ** 27 }],
  rate: [{ code: "rate", name, rate: 4000, allowed: [8000, 192_000] }],
  channels: [{ code: "channels", name, channels: 65, allowed }],
  long: [{ code: "long", name, hours: 24.5, most: 24 }],
  "looked at in vain": [{ code: "looked at in vain", name, trouble: { when: "run", why: "no answer" } }],
  "looked at too long": [{ code: "looked at too long", name, seconds: 30 }],
  damaged: [{ code: "damaged", name, from: 61.25 }],
  "rates differ": [
    {
      code: "rates differ",
      files: [
        { name: "1.wav", rate: 48_000 },
        { name: "2.wav", rate: 44_100 },
      ],
    },
  ],
  "no start time": [{ code: "no start time", names: ["1.wav", "2.wav"] }],
  "begins later": [{ code: "begins later", name, seconds: 1 / 48_000 }],
  "ends early": [{ code: "ends early", name, seconds: 0.5 }],
  apart: [{ code: "apart", name }],
  "no file": [{ code: "no file" }],
  "no track": [{ code: "no track" }],
  "no such file": [{ code: "no such file" }],
  "no such channel": [{ code: "no such channel", name, channel: 1, channels: 1 }],
  "many tracks": [{ code: "many tracks", count: 65, most: 64 }],
  unusable: [
    { code: "unusable", name, count: 1 },
    { code: "unusable", name, count: 4 },
  ],
  stopped: [{ code: "stopped", trouble: { when: "start", why: { reason: "Error: no workers here." } } }],
  cancelled: [{ code: "cancelled" }],
  failed: [{ code: "failed", reason: "The disk went away." }],
};

it("the wording of what is said of sound files is held", () => {
  expect(heldSentences(Object.values(FILES).flat().map(describeSoundFile))).toMatchSnapshot();
});

it("the wording of why a worker came to no end is held", () => {
  const whys = ["not loaded", "no answer", { reason: "out of memory" }] as const;
  const said = whys.map((why) => describeWorkerTrouble("Reading", { when: "run", why }));
  expect(heldSentences(said)).toMatchSnapshot();
});
