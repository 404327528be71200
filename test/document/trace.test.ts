import { describe, expect, it } from "vitest";
import type { TraceAbout, TraceLook } from "../../src/core/inputs/trace";
import { removeBus } from "../../src/document/commands/buses";
import { removeChannel } from "../../src/document/commands/channels";
import { setInput } from "../../src/document/commands/inputs";
import { addLook, endTrace, restartTrace, startTrace, undoLook } from "../../src/document/commands/trace";
import { LIMITS } from "../../src/document/limits";
import { readSetup } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import type { ReadNote } from "../../src/text/reading";
import { bandSetup } from "./band";

const SIGNAL: TraceLook = { link: "source", said: "signal" };
const NONE: TraceLook = { link: "port", said: "no signal" };

const who = (file: SetupFile): string => file.listeners.find((l) => l.kind === "drummer")?.id ?? "";
const begun = (about: TraceAbout, file = bandSetup()): SetupFile => startTrace(who(file), about).apply(file);
const looked = (file: SetupFile, ...looks: readonly TraceLook[]): SetupFile =>
  looks.reduce((now, look) => addLook(look).apply(now), file);
const reread = (file: unknown): { file: SetupFile; notes: readonly ReadNote[] } => {
  const read = readSetup(JSON.parse(JSON.stringify(file)));
  if (!read.ok) throw new Error(read.why.code);
  return read;
};
const channelId = (): string => bandSetup().channels[0]?.id ?? "";
const busId = (): string => bandSetup().buses[0]?.id ?? "";

describe("a trace under way", () => {
  it.each<TraceAbout>([
    { what: "everything" },
    { what: "side", side: "right" },
    { what: "channel", channel: channelId(), bus: null },
    { what: "channel", channel: channelId(), bus: busId() },
    { what: "too loud", channel: channelId() },
    { what: "input", input: 0 },
  ])("lasts in the file: $what", (about) => {
    const file = looked(begun(about), SIGNAL, NONE);
    const read = reread(file);
    expect(read.notes).toEqual([]);
    expect(read.file.trace).toEqual({ listener: who(file), about, looks: [SIGNAL, NONE] });
  });

  it("takes looks back one by one, or all, and ends", () => {
    const file = looked(begun({ what: "everything" }), SIGNAL, NONE);
    expect(undoLook().apply(file).trace?.looks).toEqual([SIGNAL]);
    expect(restartTrace().apply(file).trace?.looks).toEqual([]);
    expect("trace" in endTrace().apply(file)).toBe(false);
  });

  it("changes nothing where there is nothing to change: the very same setup", () => {
    const none = bandSetup();
    for (const command of [addLook(SIGNAL), undoLook(), restartTrace(), endTrace()])
      expect(command.apply(none)).toBe(none);
    const fresh = begun({ what: "everything" });
    for (const command of [undoLook(), restartTrace()]) expect(command.apply(fresh)).toBe(fresh);
    const full = looked(fresh, ...Array.from({ length: LIMITS.looks }, () => SIGNAL));
    expect(full.trace?.looks).toHaveLength(LIMITS.looks);
    expect(addLook(SIGNAL).apply(full)).toBe(full);
  });

  it("does not begin about what is not there", () => {
    const file = bandSetup();
    expect(startTrace("nobody", { what: "everything" }).apply(file)).toBe(file);
    for (const about of [
      { what: "channel", channel: "none", bus: null },
      { what: "channel", channel: channelId(), bus: "none" },
      { what: "too loud", channel: "none" },
      { what: "input", input: 191 },
    ] as const)
      expect(startTrace(who(file), about).apply(file)).toBe(file);
  });

  it("ends when what it is about goes", () => {
    const gone = [
      removeChannel(channelId()).apply(begun({ what: "channel", channel: channelId(), bus: null })),
      removeChannel(channelId()).apply(begun({ what: "too loud", channel: channelId() })),
      removeBus(busId()).apply(begun({ what: "channel", channel: channelId(), bus: busId() })),
      setInput(0, null).apply(begun({ what: "input", input: 0 })),
    ];
    expect(gone.map((file) => "trace" in file)).toEqual([false, false, false, false]);
  });
});

describe("a trace in a file from outside", () => {
  const withTrace = (trace: unknown) => reread({ ...bandSetup(), trace });

  it("about what is not there is over, and said", () => {
    const { file, notes } = withTrace({ listener: "nobody", about: { what: "everything" }, looks: [] });
    expect("trace" in file).toBe(false);
    expect(notes).toHaveLength(1);
  });

  it("keeps what is right and says what is not", () => {
    const trace = {
      listener: who(bandSetup()),
      about: { what: "side", side: "up" },
      looks: [SIGNAL, { link: "moon", said: 5 }],
    };
    const { file, notes } = withTrace(trace);
    expect(file.trace).toMatchObject({ about: { what: "side", side: "left" } });
    expect(notes).toHaveLength(3);
  });

  it("of an unknown kind is about everything", () => {
    const about = { what: "the weather" };
    const { file, notes } = withTrace({ listener: who(bandSetup()), about, looks: [] });
    expect(file.trace?.about).toEqual({ what: "everything" });
    expect(notes.length).toBeGreaterThan(0);
  });
});
