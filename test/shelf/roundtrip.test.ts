import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { MeasuredChannel, Recording } from "../../src/core/model/setup";
import { exampleSetup } from "../../src/document/example";
import { RANGES } from "../../src/document/limits";
import { mend } from "../../src/document/mend";
import { printSetup, readSetup } from "../../src/document/read-setup";
import type { CheckSession, SetupFile } from "../../src/document/schema";
import { printBackup } from "../../src/shelf/backup";
import { exportFile, readFile } from "../../src/shelf/file";
import { fromLink, toFragment } from "../../src/shelf/link";
import { type ReceivedThing, received } from "../../src/shelf/received";
import { answers, EARPHONE, measuredOf, within } from "../document/any";
import { applied, commands } from "../document/commands";

/** A measured level; silence is −∞. */
const level = fc.oneof(
  { weight: 3, arbitrary: within(RANGES.measured) },
  fc.constant(Number.NEGATIVE_INFINITY),
);
const measured = (channel: string): fc.Arbitrary<MeasuredChannel> => measuredOf(fc.constant(channel), level);

const recordingOf = ({ channels }: SetupFile): fc.Arbitrary<Recording> =>
  fc
    .subarray(
      channels.map((s) => s.id),
      { maxLength: 6 },
    )
    .chain((ids) =>
      fc.record({
        name: fc.string({ unit: "binary", maxLength: 20 }),
        seconds: within(RANGES.seconds),
        channels: fc.tuple(...ids.map(measured)),
        correlation: fc.tuple(...ids.map(() => fc.tuple(...ids.map(() => within(RANGES.correlation))))),
      }),
    );

const checkOf = ({ listeners, kit }: SetupFile): fc.Arbitrary<CheckSession> =>
  fc.record({
    listener: fc.constantFrom(...listeners.map((l) => l.id)),
    hits: fc.array(
      fc.record({
        piece: fc.constantFrom(...kit.pieces.map((p) => p.id), "p1"),
        answer: answers,
      }),
      { maxLength: 20 },
    ),
  });

/** Setups as they come about by any commands, with figures of a recording, earphones and a check under way. */
const setups: fc.Arbitrary<SetupFile> = fc
  .array(commands, { maxLength: 25 })
  .map((done) => applied(exampleSetup(), ...done))
  .chain((file) =>
    fc
      .record({
        name: fc.string({ unit: "binary", maxLength: 40 }),
        note: fc.string({ unit: "grapheme", maxLength: 60 }),
        recording: fc.option(recordingOf(file)),
        earphone: fc.option(fc.record(EARPHONE)),
        check: fc.option(checkOf(file)),
      })
      .map((more) => mend({ ...file, ...more })),
  );

const whole = (file: SetupFile): ReceivedThing => ({ ok: true, file, notes: [] });

/** The ways out and in again. */
const WAYS: readonly (readonly [string, (file: SetupFile) => Promise<readonly ReceivedThing[]>])[] = [
  [
    "file",
    async (file) => {
      const { name, blob } = exportFile(file);
      return readFile(new File([blob], name));
    },
  ],
  [
    "link",
    async (file) => {
      const read = await fromLink(await toFragment(file));
      return [read.ok ? received(readSetup(read.setup)) : read];
    },
  ],
  [
    "backup",
    async (file) => {
      const texts = async () => [printSetup(file), printSetup(file)];
      const [first, ...more] = await readFile(new File(await printBackup({ texts }), "backup.json"));
      expect(more).toEqual([first]);
      return first ? [first] : [];
    },
  ],
];

describe("a setup with recordings, earphones and a check", () => {
  it.each(WAYS)("comes back from a %s as the same setup, to the last digit", async (_, there) => {
    await fc.assert(
      fc.asyncProperty(setups, async (file) => {
        expect(await there(file)).toEqual([whole(file)]);
      }),
      { numRuns: 60 },
    );
  });

  it("is often of the kind that is hard to keep", () => {
    const some = fc.sample(setups, 200);
    const silent = some.filter((s) =>
      s.recording?.channels.some((m) => m.truePeak === Number.NEGATIVE_INFINITY),
    );
    expect(silent.length).toBeGreaterThan(20);
    expect(some.filter((s) => s.earphone && s.check?.hits.length).length).toBeGreaterThan(20);
  });
});
