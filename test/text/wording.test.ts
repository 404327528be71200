import { describe, expect, it } from "vitest";
import { freeingQuestion, waysToFree } from "../../src/core/allocate/free";
import { busFigures } from "../../src/core/headroom/figures";
import { busContents } from "../../src/core/inputs/bus-contents";
import { type Issue, issue } from "../../src/core/inputs/issue";
import { patchIssues } from "../../src/core/inputs/issues";
import { sheetRows } from "../../src/core/inputs/sheet";
import { withBusSwapped } from "../../src/core/mix/pair-order";
import type { Bus, Channel, Listener, Setup } from "../../src/core/model/setup";
import { imagesOf } from "../../src/core/stereo/image";
import { exampleSetup } from "../../src/document/example";
import { CONTENT_COLUMNS, describeBuses, describeMixers } from "../../src/text/bus-sheet";
import { describeFit } from "../../src/text/fit";
import { describeWay, describeWayLosses } from "../../src/text/free-inputs";
import { describeShort } from "../../src/text/headroom";
import {
  describeAll,
  describeLone,
  describeNoTrim,
  describeShortfall,
  describeTrim,
} from "../../src/text/headroom-remedies";
import { describeImage } from "../../src/text/image";
import { describeIssue } from "../../src/text/issues";
import { SHEET_COLUMNS } from "../../src/text/sheet";
import { MISFITS } from "../../src/text/taps";
import { MONITOR_REST } from "../core/desk";
import { channel as drum, piece, setupOf } from "../core/headroom/setups";
import { bus, channel, direct, isOff, listener as player, setup, side, tapped } from "../core/inputs/setups";
import * as kits from "../core/recommend/setups";
import { NOT_WORDS } from "../not-words";

/** What nobody may read: a value that is missing, or a stray mark. */
const BAD = /undefined|null|NaN|Infinity| {2}|\.\.|\bsums?\b/i;

/** One line of the snapshot each; every text is whole. */
const held = (texts: readonly (readonly string[])[]): string => {
  const lines = texts.map((text) => text.filter(Boolean).join(" | "));
  for (const line of lines) {
    expect(line).not.toMatch(BAD);
    expect(line).not.toMatch(NOT_WORDS);
  }
  return `\n${lines.join("\n")}\n`;
};

describe("the wording of the image", () => {
  const { kit, DRUMMER, listener, withChannel } = kits;
  const channelOf = kits.channel;
  const textOf = (of: Setup, id: string): string[] => {
    const at = of.listeners.findIndex((l) => l.id === id);
    const image = imagesOf(of)[at];
    if (!image) throw new Error(`no ${id}`);
    const { tone, says, more } = describeImage(of, of.listeners[at] as Listener, image);
    expect(says).toMatch(/^[A-Z0-9].*[^.]$/);
    return [tone, says, more];
  };
  const withBus = (of: Setup, over: Partial<Bus>): Setup => ({
    ...of,
    buses: of.buses.map((b, at) => (at === 0 ? { ...b, ...over } : b)),
  });
  const panned = (change: (c: Channel) => number): Setup => ({
    ...kit(),
    channels: kit().channels.map((c) => ({ ...c, pan: change(c) })),
  });
  const only = (listeners: readonly Listener[], of = kit()): Setup => ({ ...of, listeners });
  const swapped = (of: Setup): Setup => withBusSwapped(of, of.buses[0] as Bus);
  const inInputs = (...inputs: Setup["monitor"]["inputs"]): Setup =>
    kit({ monitor: { inputCount: 8, inputs, maxInputDbu: 20, ...MONITOR_REST } });
  const [L, R] = [kits.side("m1", "left"), kits.side("m1", "right")];
  const keys = withChannel(kit(), channelOf("keys", { name: "Keys", lines: 2, keepSides: true }));
  const manyWrong = ["a", "b", "c"].reduce(
    (of, id) => withChannel(of, channelOf(id, { name: id.toUpperCase(), piece: "hat", pan: 0.5 })),
    kit(),
  );
  const unplaced = { ...kit(), channels: kit().channels.map((c) => ({ ...c, piece: null })) };
  const muted = { ...kit(), channels: kit().channels.map((c) => ({ ...c, muted: true })) };
  const one = withBus(kit(), {
    sends: [{ channel: "hat", on: true, level: 0, tap: "post-fader" as const, pan: null }],
  });

  it("is held", () => {
    expect(
      held([
        textOf(kit(), "mara"),
        textOf(swapped(kit()), "mara"),
        textOf(only([{ ...DRUMMER, name: "Drummer" }]), "mara"),
        textOf(kit(), "audience"),
        textOf(manyWrong, "mara"),
        textOf(
          panned((c) => (c.id === "hat" ? -0.7 : c.pan)),
          "audience",
        ),
        textOf(
          panned((c) => (c.id === "hat" ? 0 : c.pan)),
          "audience",
        ),
        textOf(
          panned((c) => (c.id === "hat" || c.id === "ride" ? 0 : c.pan)),
          "audience",
        ),
        textOf(
          panned(() => 0),
          "mara",
        ),
        textOf(only([listener("rafi", { name: "Rafi", facing: 90 })]), "rafi"),
        textOf(only([{ ...DRUMMER, bus: null }]), "mara"),
        textOf(withBus(kit(), { sends: [] }), "mara"),
        textOf(muted, "audience"),
        textOf(withBus(kit(), { stereo: false }), "mara"),
        textOf(withBus(kit(), { folded: true }), "mara"),
        textOf(only([{ ...DRUMMER, mono: true }]), "mara"),
        textOf(one, "mara"),
        textOf(swapped(one), "mara"),
        textOf(
          withBus(kit(), {
            sends: [{ channel: "hat", on: true, level: 0, tap: "post-fader" as const, pan: 0 }],
          }),
          "mara",
        ),
        textOf(unplaced, "mara"),
        textOf(unplaced, "audience"),
        textOf(withChannel(kit(), channelOf("click")), "mara"),
        textOf(swapped(keys), "mara"),
        textOf(inInputs(), "mara"),
        textOf(inInputs(isOff(L), R), "mara"),
        textOf(inInputs(isOff(L), isOff(R)), "mara"),
        textOf(withBus(inInputs(isOff(L)), { stereo: false }), "mara"),
      ]),
    ).toMatchSnapshot();
  });

  it("ticks nothing where L/R is lost or the bus has no input", () => {
    expect(textOf(swapped(kit()), "mara")[0]).toBe("fine");
    expect(textOf(swapped(keys), "mara")[0]).toBe("care");
    const unassigned = withBus(inInputs(), { swapped: true });
    expect(textOf(unassigned, "mara")[0]).toBe("care");
  });

  it("is whole in every random setup", () => {
    for (let seed = 0; seed < 500; seed += 1) {
      const of = kits.randomSetup(seed);
      for (const { id } of of.listeners) held([textOf(of, id)]);
    }
  });
});

describe("the wording of headroom", () => {
  const fitText = (
    peak: number | null,
    given: Partial<Bus> = {},
    more: readonly Channel[] = [],
    margin = 6,
  ) => {
    const of = setupOf([drum("snare", { name: "Snare", pan: -1, peak }), ...more], {
      bus: given,
      inputMaxDbu: 18,
      margin,
      pieces: [piece("a", ["hand"]), piece("b", ["hand"]), piece("c", ["kick-foot"])],
    });
    const its = of.buses[0] as Bus;
    const figures = busFigures(of, its);
    const { tone, says, more: rest } = describeFit(of, its, figures);
    return [tone, says, rest, describeShort(figures, its)];
  };
  const quiet = ["x", "y", "z"].map((id) => drum(id, { peak: null }));
  const limbs = (peak: number) => ["a", "b", "c"].map((id) => drum(id, { piece: id, pan: -1, peak }));

  it("is held", () => {
    expect(
      held([
        fitText(1.24),
        fitText(0.04),
        fitText(-4.7),
        fitText(-5.98),
        fitText(-7),
        fitText(-7, { trim: 0.5 }),
        fitText(-7, { padDb: -0.5, stereo: false }),
        fitText(-9, {}, quiet),
        fitText(-4, {}, quiet),
        fitText(1, {}, quiet),
        fitText(null),
        fitText(-7, { sends: [] }),
        fitText(-7, {
          sends: [{ channel: "snare", on: true, level: null, tap: "post-fader" as const, pan: null }],
        }),
        fitText(null, {}, limbs(-8), 0),
        fitText(-60, {}, limbs(-8), 0),
        fitText(-60, {}, limbs(-12), 0),
        fitText(null, {}, limbs(-12), 0),
        fitText(
          -60,
          {},
          ["x", "y", "z"].map((id) => drum(id, { pan: -1, peak: -8 })),
          0,
        ),
      ]),
    ).toMatchSnapshot();
  });

  /** Every way that is offered, with what it costs. */
  const waysText = (channels: readonly Channel[], given: Partial<Bus> = {}, more = {}) => {
    const of = setupOf(channels, { bus: given, inputMaxDbu: 18, ...more });
    const its = of.buses[0] as Bus;
    const { remedy, unknown } = busFigures(of, its);
    if (!remedy) throw new Error("nothing to do");
    const { lone, trim, all } = remedy;
    const ways = [
      ...(lone ? [describeLone(of, lone)] : []),
      ...(trim.code === "enough" ? [describeTrim(its, trim)] : []),
      describeAll(of, its, all),
    ];
    return [
      describeShortfall(remedy, unknown.peak.length),
      ...ways.flatMap(({ says, done, costs }) => [says, done, costs]),
      trim.code === "enough" ? "" : describeNoTrim(trim),
    ];
  };

  it("of the ways to the target is held", () => {
    const snare = drum("snare", { name: "Snare", pan: -1, peak: -2 });
    const hat = (peak: number | null) => drum("hat", { name: "Hat", pan: -1, peak });
    const noBus = { console: { busOverloads: false } };
    const low = (channelId: string, level: number) =>
      ({ channel: channelId, on: true, level, tap: "post-fader", pan: null }) as const;
    expect(
      held([
        waysText([snare, hat(-7)], {}, noBus),
        waysText([snare, hat(-40)], {}, noBus),
        waysText([snare, hat(null)], {}, noBus),
        waysText([snare], { trim: -3 }),
        waysText([snare, hat(-7)], { sends: [low("snare", 0), low("hat", -118)] }, noBus),
        waysText([snare, hat(-7)], {}, { ...noBus, inputMaxDbu: -50 }),
      ]),
    ).toMatchSnapshot();
  });

  it("never ticks what rests on peaks that are not entered", () => {
    expect(fitText(-9)[0]).toBe("fine");
    expect(fitText(-9, {}, quiet)[0]).toBe("care");
  });
});

describe("the wording of the patch", () => {
  const KICK = channel("Kick", { kind: "drum" });
  const VOX = channel("Vox", { kind: "vocal" });
  const KEYS = channel("Keys", { kind: "keys", lines: 2 });
  const drums = (more: Partial<Bus> = {}) => bus("Drums", ["Kick"], more);
  const [L, R] = [side("Drums", "left"), side("Drums", "right")];
  const many = Array.from({ length: 12 }, (_, i) => channel(`c${i}`));

  const SETUPS: readonly Setup[] = [
    setup([KICK, VOX, KEYS], [], [direct("Kick"), direct("Vox"), direct("Keys")], 2),
    setup([KICK, VOX], [], [direct("Kick"), null, direct("Vox")], 2),
    setup([KICK, VOX], [], [null, null, null, direct("Kick"), direct("Vox")], 3),
    setup([KICK], [drums()], [L, R, direct("Kick")]),
    setup([{ ...KICK, pan: 1 }], [drums()], [L, R, direct("Kick")]),
    setup([VOX], [], [direct("Vox"), direct("Vox")]),
    setup([VOX], [], [direct("Vox"), isOff(direct("Vox"))]),
    setup([KICK], [drums({ folded: true })], [L, R]),
    setup([KICK, VOX], [drums()], [L, direct("Vox"), R]),
    setup([KICK], [drums()], [R, L]),
    setup([KICK], [drums({ swapped: true })], [L, R]),
    setup([KEYS], [], [direct("Keys", "right"), direct("Keys", "left")]),
    setup([KICK], [drums()], [null, L, R]),
    setup([KICK], [drums()], [L]),
    setup([KEYS], [], [direct("Keys", "right")]),
    setup([VOX, KICK], [], [isOff(direct("Vox")), direct("Kick")]),
    setup([VOX, KICK, KEYS], [], [isOff(direct("Vox")), isOff(direct("Kick")), direct("Keys")]),
    setup([{ ...VOX, muted: true }, KICK], [], [direct("Vox"), direct("Kick")]),
    setup(
      [tapped(VOX, "post-fader"), { ...tapped(VOX, "post-fader"), id: "Vox 2", name: "Vox 2" }],
      [],
      [direct("Vox"), direct("Vox 2")],
    ),
    setup([KICK], [drums({ sends: [] })], [L, R, direct("Kick")]),
    setup([KICK], [], [direct("Kick")], 16, [player("Mara, drums"), player("Tobi")]),
    setup([KICK], [drums()], [direct("Kick")], 16, [player("Mara", { bus: "Drums" })]),
    setup([KICK], [drums()], [direct("Kick"), isOff(L), isOff(R)], 16, [
      player("Mara", { bus: "Drums" }),
      player("Tobi", { bus: "Drums" }),
    ]),
    setup([KICK, VOX], [], [direct("Kick")]),
    setup([KICK, ...many], [], [direct("Kick")]),
    setup(
      [KICK, { ...VOX, name: " kick " }],
      [drums({ name: "" }), bus("b", [], { name: "" })],
      [direct("Kick"), direct("Vox")],
    ),
    setup([KICK], [drums()], []),
    setup([KICK], [], []),
    setup(
      [
        { ...KICK, numbers: [3] },
        { ...VOX, numbers: [3] },
        { ...KEYS, numbers: [999] },
      ],
      [
        bus("Band", ["Kick", "Vox"], {
          sends: bus("Band", ["Kick", "Vox"]).sends.map((s) => ({ ...s, on: s.channel === "Kick" })),
        }),
      ],
      [
        side("Band", "left", { port: 1 }),
        side("Band", "right", { port: 1 }),
        direct("Keys", "left", { port: 2 }),
        direct("Keys", "right", { port: 3 }),
      ],
    ),
    setup([KICK], [drums({ numbers: [5, 6] }), bus("b", [], { numbers: [6] })], [L, R]),
    setup(
      [KICK],
      [bus("b", [], { numbers: [98] }), bus("c", [], { numbers: [99] })],
      [direct("Kick", "both", { port: 192 })],
    ),
  ];
  const textOf = (of: Setup, found: Issue): string[] => {
    const { says, remedy } = describeIssue(of, found);
    return [`${found.severity}: ${found.code}`, says, remedy];
  };

  it("is held for every issue", () => {
    const met = new Set<string>();
    const lines = SETUPS.flatMap((of) =>
      patchIssues(of).map((found) => {
        met.add(found.code);
        return textOf(of, found);
      }),
    );
    expect(held([...new Map(lines.map((line) => [line.join(), line])).values()])).toMatchSnapshot();
    // Every code of the table has been read.
    expect([...met].sort()).toMatchSnapshot();
    expect(held(Object.entries(MISFITS))).toMatchSnapshot();
  });

  it("does not let a name turn the words behind it", () => {
    const named = issue("same name", "note", { channels: ["a", "b"] }, { name: "\u202Ekcik" });
    expect(describeIssue(setup([], [], []), named).says).toContain("“\u202Ekcik\u202C”");
  });

  it("is held for ways to free inputs", () => {
    const hat = channel("Hat", { kind: "drum", pan: 1 });
    const tom = channel("Tom", { kind: "drum", pan: -1, peak: null });
    const horn = (name: string) => channel(name, { kind: "horn" });
    const crowd = channel("Crowd", { kind: "audience" });
    const waysOf = (of: Setup) => {
      const question = freeingQuestion(of, { channels: new Map(), buses: [] });
      if (!question) throw new Error("nothing is over");
      return waysToFree(question).map((way) => [
        `${way.frees}`,
        ...describeWay(of, question, way),
        ...describeWayLosses(question, way),
      ]);
    };
    expect(
      held([
        ...waysOf(setup([KICK, hat], [drums()], [L, R, direct("Hat")], 2)),
        ...waysOf(setup([tom, hat], [], [direct("Hat"), direct("Tom")], 1)),
        ...waysOf(setup([KICK], [], [direct("Kick"), direct("Kick")], 1)),
        ...waysOf(
          setup([{ ...KEYS, keepSides: true }], [], [direct("Keys", "left"), direct("Keys", "right")], 1),
        ),
        ...waysOf(setup([KICK], [drums()], [L, R, direct("Kick")], 2)),
        ...waysOf(
          setup(
            [VOX, horn("Trumpet"), horn("Sax"), crowd],
            [],
            [direct("Vox"), direct("Trumpet"), direct("Sax"), direct("Crowd")],
            2,
          ),
        ),
        ...waysOf(
          setup([KICK, VOX], [bus("Band", ["Kick", "Vox"])], [side("Band", "left"), direct("Vox")], 1),
        ),
      ]),
    ).toMatchSnapshot();
  });

  it("is held for the patch sheet", () => {
    const columns = Object.values(SHEET_COLUMNS);
    const sheet = (of: Setup) => sheetRows(of).map((row) => columns.map(({ cell }) => cell(row, of)));
    const swapped = setup(
      [KICK, KEYS],
      [drums(), bus("Band", [], { stereo: false })],
      [R, L, direct("Keys"), side("Band", "left")],
      5,
    );
    expect(
      held([columns.map(({ head }) => head), ...sheet(exampleSetup()), ...sheet(swapped)]),
    ).toMatchSnapshot();
  });

  it("is held for what is in the buses and what is set at the mixers", () => {
    const example = exampleSetup();
    const [first, second, ...others] = example.buses as [Bus, Bus, ...Bus[]];
    const [mara, ...rest] = example.listeners as [Listener, ...Listener[]];
    const mixed: Setup = {
      ...example,
      buses: [
        {
          ...first,
          swapped: true,
          folded: true,
          fader: null,
          sends: first.sends.map((send, at) => ({
            ...send,
            on: at !== 1,
            level: at === 2 ? null : -3.25,
            pan: at === 3 ? 0.5 : null,
          })),
        },
        { ...second, numbers: [], sends: [] },
        ...others,
      ],
      listeners: [{ ...mara, flipped: true }, ...rest.map((l, at) => ({ ...l, mono: at === 1 }))],
    };
    const bare: Setup = { ...example, buses: [], monitor: { ...example.monitor, inputs: [] } };
    const notes = (of: Setup): string[][] => [
      ...describeBuses(of).map(({ title, says }) => [title, says]),
      ...describeMixers(of).map((says) => [says]),
      ...busContents(of)
        .flatMap(({ contents }) => contents)
        .map((content) => CONTENT_COLUMNS.map(({ cell }) => cell(content, of))),
    ];
    expect(held([...notes(example), ...notes(mixed)])).toMatchSnapshot();
    expect(notes(bare)).toEqual([]);
  });
});
