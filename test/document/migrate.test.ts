import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { MIGRATIONS, type Migration, migrate, type RawSetup } from "../../src/document/migrate";
import { printSetup, readSetup } from "../../src/document/read-setup";
import { FORMAT, type SetupFile, VERSION } from "../../src/document/schema";

const fixtures = new URL("../fixtures/", import.meta.url);
const fixture = (version: number) =>
  JSON.parse(readFileSync(new URL(`setup-v${version}.json`, fixtures), "utf8"));

/** Two steps that never were, to try the mechanism on. */
const steps = (): { calls: string[]; list: Migration[] } => {
  const calls: string[] = [];
  const list: Migration[] = [
    (setup) => {
      calls.push(`1 to 2 at ${setup.version}`);
      return { ...setup, title: setup.name };
    },
    (setup) => {
      calls.push(`2 to 3 at ${setup.version}`);
      return { ...setup, title: `${setup.title}!` };
    },
  ];
  return { calls, list };
};

describe("migrations", () => {
  it("lead to the version that is written", () => {
    expect(MIGRATIONS).toHaveLength(VERSION - 1);
  });

  it("have a frozen fixture for every version, and each of them is run and read without a word", () => {
    const frozen = readdirSync(fixtures).filter((name) => /^setup-v\d+\.json$/.test(name));
    expect(frozen).toHaveLength(VERSION);
    const run = new Set<number>();
    const watched = MIGRATIONS.map(
      (step, at): Migration =>
        (setup) => {
          run.add(at);
          return step(setup);
        },
    );
    for (let version = 1; version <= VERSION; version += 1) {
      expect(readSetup(fixture(version), watched)).toMatchObject({ ok: true, notes: [] });
    }
    expect(run.size).toBe(MIGRATIONS.length);
  });

  it("of a setup of version 2 give what was not there as the app then behaved, and move the tap point to the channel", () => {
    const channels = ["before-eq", "after-fader", null].map((_, at) => ({
      id: `s${at + 1}`,
      kind: ["voice", "talk", ["voice"]][at],
    }));
    const slots = ["before-eq", "after-fader"].map((tap, at) => ({
      feed: { kind: "source", source: `s${at + 1}`, channel: "both", tap },
      on: true,
      trim: 0,
    }));
    const old = { format: FORMAT, version: 2, sources: channels, monitor: { slotCount: 16, slots } };
    const now = migrate(old) as unknown as SetupFile;
    expect(now.channels.map((c) => c.directOut)).toEqual(
      (["pre-eq", "post-fader", "pre-fader"] as const).map((tap) => ({ tap, on: true, trim: 0 })),
    );
    // What is no word is left to the reader, which says so.
    expect(now.channels.map((c) => c.kind)).toEqual(["vocal", "talkback", ["voice"]]);
    expect(now.channels[0]).toMatchObject({
      numbers: [],
      fader: 0,
      activity: null,
      colour: null,
      group: "",
      extra: [],
    });
    expect(now.monitor).toMatchObject({
      inputCount: 16,
      link: "analog",
      trimBeforeInput: false,
      mixers: { flip: true, mono: true },
    });
    expect(now.monitor.inputs[0]).toEqual({
      feed: { kind: "channel", channel: "s1", side: "both" },
      port: null,
      on: true,
      trim: 0,
    });
  });

  it("are run in order from the file's own version", () => {
    const { calls, list } = steps();
    expect(migrate({ format: FORMAT, version: 1, name: "A" }, list)).toEqual({
      format: FORMAT,
      version: 3,
      name: "A",
      title: "A!",
    });
    expect(calls).toEqual(["1 to 2 at 1", "2 to 3 at 2"]);
    calls.length = 0;
    expect(migrate({ format: FORMAT, version: 2, title: "B" }, list)).toMatchObject({
      version: 3,
      title: "B!",
    });
    expect(calls).toEqual(["2 to 3 at 2"]);
    expect(migrate({ format: FORMAT, version: 3, title: "C" }, list)).toMatchObject({ title: "C" });
    expect(() => migrate({ format: FORMAT, version: 4 }, list)).toThrow("newer");
  });

  it("leave what they were given as it was, also when they change it in place or fail", () => {
    const spoil: Migration = (setup) => {
      (setup.kit as { hand: string }).hand = "none";
      throw new Error("no such hand.");
    };
    const given: RawSetup = JSON.parse(printSetup(exampleSetup()));
    const before = JSON.stringify(given);
    expect(readSetup(given, [...MIGRATIONS, spoil])).toEqual({
      ok: false,
      why: { code: "not migrated", version: VERSION, reason: "no such hand." },
    });
    expect(JSON.stringify(given)).toBe(before);
  });
});
