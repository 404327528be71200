import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { ACCEPTED, isNamedWav, isSound, SOUND_FILES } from "../../src/measure/kinds";

const manifest = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../public/manifest.webmanifest"), "utf8"),
);

describe("which files are sound", () => {
  it.each([
    "Kick.wav",
    "HAT.WAV",
    "take.bwf",
    "take.rf64",
    "snare.FLAC",
    "rehearsal.mp3",
    "memo.m4a",
    "a.opus",
  ])("%s by its name", (name) => {
    expect(isSound({ name, type: "" })).toBe(true);
  });
  it("by its type, whatever the name", () => {
    expect(isSound({ name: "recording 7", type: "audio/x-m4a" })).toBe(true);
  });
  it.each(["hall.hatside", "hall.json", "inputs.csv", "wav", "my.wav.txt", "mp3 list.pdf"])(
    "%s is none",
    (name) => {
      expect(isSound({ name, type: "application/octet-stream" })).toBe(false);
    },
  );
  it("WAV by name", () => {
    expect(["a.wav", "a.wave", "a.BWF", "a.rf64", "a.bw64"].every(isNamedWav)).toBe(true);
    expect(["a.flac", "a.mp3", "wav"].some(isNamedWav)).toBe(false);
  });
});

describe("the manifest knows the same files as the list", () => {
  it("opened with the app", () => {
    const [{ accept }] = manifest.file_handlers;
    const sound = Object.entries(accept).filter(([type]) => type.startsWith("audio/"));
    expect(Object.fromEntries(sound)).toEqual(SOUND_FILES);
  });
  it("shared to the app", () => {
    const [{ accept }] = manifest.share_target.params.files;
    const others = ["application/json", ".json", ".hatside", "text/csv", ".csv"];
    expect(new Set(accept)).toEqual(new Set([...others, ...ACCEPTED]));
  });
});
