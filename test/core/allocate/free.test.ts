import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyPlan } from "../../../src/core/allocate/apply";
import {
  type FreeingQuestion,
  freeingQuestion,
  type WayToFree,
  waysToFree,
} from "../../../src/core/allocate/free";
import { type FreeingMove, freeingMoves } from "../../../src/core/allocate/free-moves";
import { type LossCode, WORST_FIRST } from "../../../src/core/allocate/losses";
import type { AllocationChannel, AllocationProblem, Pin } from "../../../src/core/allocate/model";
import type { HandPins } from "../../../src/core/allocate/problem";
import { usageOf } from "../../../src/core/inputs/usage";
import { BLANK_BUS, BLANK_CHANNEL, BLANK_INPUT, BLANK_SEND } from "../../../src/core/model/defaults";
import type { Bus, Channel, Feed, MonitorInput, Setup } from "../../../src/core/model/setup";
import { blankSetup } from "../../../src/document/blank";
import { replaceSetup } from "../../../src/document/commands/apply";
import { exampleSetup } from "../../../src/document/example";
import { back, beginHistory, record } from "../../../src/document/history";
import { allocatedBusName } from "../../../src/text/allocate";
import { aBand, NO_PINS } from "./bands";
import { BRUTE_CODES, busesOf, leastLost, type Place } from "./brute";
import { channel, problem, smallProblem } from "./problems";

const asked = (setup: Setup, pins = NO_PINS): FreeingQuestion => {
  const question = freeingQuestion(setup, pins);
  if (!question) throw new Error("nothing is over");
  return question;
};
const applied = (setup: Setup, { problem }: FreeingQuestion, { plan }: WayToFree): Setup =>
  applyPlan(setup, problem, plan, allocatedBusName);

/** Alike in words: as it is, or less of its own, or a wider bus. */
const givesWay =
  (all: readonly AllocationChannel[]) =>
  (c: AllocationChannel, place: Place, width: number): boolean => {
    const now = c.current;
    if (c.pin || place.at === "out") return true;
    if (!now) return c.currentInputs.length > 0;
    const isAlone = !all.some((o) => o !== c && o.currentInputs.some((i) => c.currentInputs.includes(i)));
    if (place.at === "own")
      return place.width <= now.width && (now.as === "own" || (isAlone && c.currentInputs.length > 0));
    const isOfOne = !all.some((o) => o !== c && busesOf(o, all).some(({ id }) => id === place.id));
    if (isOfOne && place.level < 3 && !(now.as === "bus" && now.bus === place.id)) return false;
    if (now.as === "own") return true;
    if (place.id === now.bus) return width <= now.width;
    const buses = busesOf(c, all).map(({ id }) => id);
    return buses.indexOf(place.id) > buses.indexOf(now.bus);
  };

/** The table where change is worse than an input that is used. */
const ORDER = BRUTE_CODES.filter((code) => code !== "changed").flatMap((code) =>
  code === "input-used" ? ["changed", code] : [code],
);

/** As a setup would say it: a channel comes by a bus that could hold it. */
const sensible = (problem: AllocationProblem): AllocationProblem => ({
  ...problem,
  channels: problem.channels.map((c) => {
    const now = c.currentInputs.length > 0 ? c.current : null;
    const holds = now?.as !== "bus" || busesOf(c, problem.channels).some(({ id }) => id === now.bus);
    return { ...c, current: holds ? now : null };
  }),
});

describe("a way to free inputs", () => {
  it.each([
    [2, 300],
    [3, 500],
    [4, 100],
  ])("loses no more than the best of everything that gives way: up to %i channels", (most, numRuns) => {
    let possible = 0;
    let runs = 0;
    fc.assert(
      fc.property(smallProblem(most).map(sensible), fc.nat(3), (problem, needed) => {
        runs += 1;
        const used = problem.inputs - new Set(problem.reserved).size;
        if (needed > used) return;
        const least = leastLost(problem, {
          order: ORDER,
          may: givesWay(problem.channels),
          most: used - needed,
        });
        const [way] = waysToFree({ problem, used, needed });
        if (least) possible += 1;
        expect(way ? BRUTE_CODES.map((code) => way.plan.charges[code as LossCode] ?? 0) : null).toEqual(
          least,
        );
      }),
      { numRuns },
    );
    // Of what was really run: a mutant is judged by fewer.
    expect(possible).toBeGreaterThan(runs / 3);
  });

  it("is told in the codes of the one table", () => {
    expect(BRUTE_CODES).toEqual(WORST_FIRST);
  });
});

const widthOf = (setup: Setup, of: (feed: Feed) => boolean): number => {
  const sides = setup.monitor.inputs.flatMap((at) => (at && of(at.feed) ? [at.feed.side] : []));
  return sides.includes("left") && sides.includes("right") ? 2 : Math.min(1, sides.length);
};

/** By channel, where it comes in: by itself on one input or two, by which buses in mono or stereo. */
const placesOf = (setup: Setup): Map<string, readonly string[]> =>
  new Map(
    setup.channels.map(({ id }) => {
      const own = widthOf(setup, (feed) => feed.kind === "channel" && feed.channel === id);
      const buses = setup.buses
        .filter(({ sends }) => sends.some((send) => send.on && send.channel === id))
        .map((at) => {
          const width = widthOf(setup, (feed) => feed.kind === "bus" && feed.bus === at.id);
          return `${at.id} ${at.folded ? Math.min(1, width) : width}`;
        });
      return [id, [`own ${own}`, ...buses].filter((at) => !at.endsWith(" 0"))];
    }),
  );

/** Channels that come in otherwise than before, but for what went with a bus from which all else is named. */
const otherwise = (before: Setup, after: Setup): string[] => {
  const was = placesOf(before);
  const isPatched = (bus: string): boolean =>
    after.monitor.inputs.some((at) => at?.feed.kind === "bus" && at.feed.bus === bus);
  return [...placesOf(after)].flatMap(([id, places]) => {
    const had = was.get(id) ?? [];
    const isNew = places.some((at) => !had.includes(at));
    const left = had.filter((at) => !places.includes(at)).map((at) => at.split(" ")[0] ?? "");
    return isNew ||
      left.some((at) => at === "own" || isPatched(at)) ||
      (places.length === 0) !== (had.length === 0)
      ? [id]
      : [];
  });
};

const sentTo = (setup: Setup, bus: string): string[] =>
  setup.buses.find(({ id }) => id === bus)?.sends.map(({ channel }) => channel) ?? [];

/** Every channel that the moves name, by itself or by its bus. */
const namedIn = (moves: readonly FreeingMove[], before: Setup, after: Setup): Set<string> =>
  new Set(
    moves.flatMap((move): readonly string[] => {
      if (move.move === "free")
        return move.inputs.flatMap((i) => {
          const feed = before.monitor.inputs[i]?.feed;
          return feed?.kind === "bus" ? sentTo(before, feed.bus) : [];
        });
      if ("channels" in move) return move.channels;
      if ("channel" in move) return [move.channel];
      return move.of === "channel" ? [move.id] : sentTo(after, move.id);
    }),
  );

describe("ways to free inputs of any patch", () => {
  const over = aBand.map((band) => {
    const used = usageOf(band).used.length;
    return { ...band, monitor: { ...band.monitor, inputCount: Math.max(1, used - 3) } };
  });

  it("free as many as they say, at least what is needed, each in a way of its own", () => {
    let met = 0;
    let runs = 0;
    fc.assert(
      fc.property(over, (setup) => {
        runs += 1;
        const question = freeingQuestion(setup, NO_PINS);
        const before = usageOf(setup);
        expect(question === null).toBe(before.tooMany === 0);
        if (!question) return;
        const ways = waysToFree(question);
        expect(ways.length).toBeGreaterThan(0);
        for (const way of ways) {
          met += 1;
          expect(way.frees).toBeGreaterThanOrEqual(before.tooMany);
          const after = usageOf(applied(setup, question, way));
          expect(after.over).toEqual([]);
          expect(before.used.length - after.used.length).toBe(way.frees);
        }
        const structures = ways.map(({ plan }) =>
          JSON.stringify(plan.feeds.map((f) => [f.width, f.channels])),
        );
        expect(new Set(structures).size).toBe(ways.length);
      }),
      { numRuns: 80 },
    );
    // Of what was really run: a mutant is judged by fewer.
    expect(met / runs).toBeGreaterThan(40 / 80);
  });

  it("name every channel that comes in otherwise afterwards, and lose nothing else", () => {
    fc.assert(
      fc.property(over, (setup) => {
        const question = freeingQuestion(setup, NO_PINS);
        if (!question) return;
        for (const way of waysToFree(question)) {
          const moves = freeingMoves(setup, question.problem, way.plan);
          expect(moves.length).toBeGreaterThan(0);
          const after = applied(setup, question, way);
          const named = namedIn(moves, setup, after);
          for (const id of otherwise(setup, after)) expect(named).toContain(id);
          const out = moves.flatMap((m) => (m.move === "out" ? [m.channel] : []));
          for (const id of out)
            expect(way.loses.some((l) => l.channel === id && l.code === "left-out")).toBe(true);
          for (const { channel, code } of way.loses) if (code === "left-out") expect(out).toContain(channel);
        }
      }),
      { numRuns: 80 },
    );
  });

  it("are taken back by one undo, and leave the ports where they are", () => {
    fc.assert(
      fc.property(over, (setup) => {
        const question = freeingQuestion(setup, NO_PINS);
        const [way] = question ? waysToFree(question) : [];
        if (!question || !way) return;
        const then = record(
          beginHistory(setup),
          replaceSetup("free inputs", (s) => applied(s, question, way)),
        );
        expect(back(then).present).toBe(setup);
        then.present.monitor.inputs.forEach((input, i) => {
          const port = setup.monitor.inputs[i]?.port ?? null;
          if (input && port !== null) expect(input.port).toBe(port);
        });
      }),
      { numRuns: 40 },
    );
  });
});

const lines = (...list: readonly (readonly [name: string, kind: Channel["kind"], lines?: 2])[]): Channel[] =>
  list.map(([name, kind, wide], i) => ({
    ...BLANK_CHANNEL,
    id: name,
    name,
    kind,
    numbers: [i + 1],
    lines: wide ?? 1,
  }));
const input = (feed: Feed): MonitorInput => ({ ...BLANK_INPUT, feed });
const own = (channel: string, side: "both" | "left" | "right" = "both"): MonitorInput =>
  input({ kind: "channel", channel, side });
const ofBus = (bus: string, side: "left" | "right" = "left"): MonitorInput =>
  input({ kind: "bus", bus, side });
const bus = (name: string, stereo: boolean, ...channels: readonly string[]): Bus => ({
  ...BLANK_BUS,
  id: name,
  name,
  stereo,
  sends: channels.map((channel) => ({ ...BLANK_SEND, channel })),
});
const patched = (
  inputCount: number,
  channels: readonly Channel[],
  buses: readonly Bus[],
  inputs: readonly (MonitorInput | null)[],
): Setup => {
  const blank = blankSetup();
  return { ...blank, channels, buses, monitor: { ...blank.monitor, inputCount, inputs } };
};

/** Kick, snare and hat in a stereo bus; bass, stereo keys, three horns and a singer by themselves: ten inputs. */
const BAND = lines(
  ["Kick", "drum"],
  ["Snare", "drum"],
  ["Hat", "drum"],
  ["Bass", "bass"],
  ["Keys", "keys", 2],
  ["Trumpet", "horn"],
  ["Trombone", "horn"],
  ["Sax", "horn"],
  ["Lead vox", "lead-vocal"],
);
const DRUMS = bus("Drums", true, "Kick", "Snare", "Hat");
const TEN = [
  ...[ofBus("Drums"), ofBus("Drums", "right"), own("Bass"), null, own("Keys", "left"), own("Keys", "right")],
  ...[own("Trumpet"), own("Trombone"), own("Sax"), own("Lead vox")],
];
const said = (setup: Setup, pins: HandPins = NO_PINS) => {
  const question = asked(setup, pins);
  return waysToFree(question).map((way) => ({
    frees: way.frees,
    moves: freeingMoves(setup, question.problem, way.plan),
    loses: way.loses.map(({ code, channel }) => `${code} ${channel}`),
  }));
};
const horns = (channels: readonly string[]): FreeingMove => ({
  move: "together",
  channels,
  bus: { id: "horns", level: "family", family: "horns", section: null, instrument: null },
  width: 1,
});

describe("what has to go", () => {
  it("is first what nobody misses most: a section on one input, then more", () => {
    const [first, ...others] = said(patched(8, BAND, [DRUMS], TEN));
    // Nine inputs into eight: two horns share.
    expect(first).toEqual({
      frees: 1,
      moves: [horns(["Trombone", "Sax"])],
      loses: ["own-input-lost Trombone", "own-input-lost Sax"],
    });
    expect(others.map(({ frees, loses }) => [frees, loses])).toEqual([
      [1, ["stereo-folded Keys"]],
      [2, ["own-input-lost Trumpet", "own-input-lost Trombone", "own-input-lost Sax"]],
      [3, ["stereo-folded Keys", ...["Trumpet", "Trombone", "Sax"].map((name) => `own-input-lost ${name}`)]],
    ]);
  });

  it("leaves everything else as it is, on its inputs", () => {
    const setup = patched(8, BAND, [DRUMS], TEN);
    const question = asked(setup);
    const [way] = waysToFree(question);
    const after = applied(setup, question, way as WayToFree);
    const at = (s: Setup, i: number) => s.monitor.inputs[i]?.feed;
    for (const i of [0, 1, 2, 4, 5, 6]) expect(at(after, i)).toEqual(at(setup, i));
    expect(after.buses[0]).toEqual(DRUMS);
    expect(
      after.monitor.inputs.flatMap((i) => (i?.feed.kind === "channel" ? [i.feed.channel] : [])).sort(),
    ).toEqual([...["Bass", "Keys", "Keys", "Lead vox", "Trumpet"]]);
  });

  it("goes by pins, and says nothing where they leave no way", () => {
    const setup = patched(8, BAND, [DRUMS], TEN);
    const pin = (name: string, as: Pin): [string, Pin] => [name, as];
    const apart: Pin = { as: "own", width: 1, input: null };
    const wide: Pin = { as: "own", width: 2, input: null };
    const held = ["Trumpet", "Trombone", "Sax"].map((name) => pin(name, apart));
    const [first] = said(setup, { channels: new Map(held), buses: [] });
    expect(first?.moves).toEqual([{ move: "fold", of: "channel", id: "Keys" }]);
    const all = [...held, pin("Keys", wide), pin("Bass", apart), pin("Lead vox", apart)];
    const drums = { bus: "drums", width: 2, input: 1 } as const;
    expect(said(setup, { channels: new Map(all), buses: [drums] })).toEqual([]);
  });

  it("never splits what must keep L/R before anything else", () => {
    const keeps = BAND.map((c) => (c.name === "Keys" ? { ...c, keepSides: true } : c));
    const ways = said(patched(7, keeps, [DRUMS], TEN));
    for (const { loses } of ways.slice(0, 1)) expect(loses).not.toContain("sides-lost Keys");
  });

  it("is nothing where the same comes in twice", () => {
    const setup = patched(2, BAND.slice(3, 4), [], [own("Bass"), null, own("Bass"), own("Bass")]);
    expect(said(setup)).toEqual([{ frees: 2, moves: [{ move: "free", inputs: [2, 3] }], loses: [] }]);
  });

  it("is the input of its own where a channel is in a bus as well, which its loss names", () => {
    const setup = patched(
      2,
      BAND.slice(0, 3),
      [DRUMS],
      [ofBus("Drums"), ofBus("Drums", "right"), own("Kick")],
    );
    const [first] = said(setup);
    expect(first).toEqual({
      frees: 1,
      moves: [{ move: "into", channels: ["Kick"], bus: "Drums" }],
      loses: ["spare-own-shared Kick"],
    });
  });

  it("is an input of a folded bus, by which the other side comes in again", () => {
    const folded = { ...DRUMS, folded: true };
    const setup = patched(
      2,
      BAND.slice(0, 4),
      [folded],
      [ofBus("Drums"), ofBus("Drums", "right"), own("Bass")],
    );
    expect(said(setup)[0]).toEqual({ frees: 1, moves: [{ move: "free", inputs: [1] }], loses: [] });
  });

  it("is no bus for the one channel of its family that is in it", () => {
    const kick = channel("Kick", "kick", {
      currentInputs: [1],
      current: { as: "bus", bus: "drums", width: 1 },
    });
    // By a drum bus, which no plan would have it in.
    const host = channel("Host", "speech", { currentInputs: [1] });
    const [way] = waysToFree({ problem: problem(2, [kick, host]), used: 3, needed: 1 });
    expect(way?.plan.feeds.map((feed) => [feed.bus?.id, feed.channels])).toEqual([
      ["drums", ["Kick"]],
      [undefined, ["Host"]],
    ]);
  });

  it("switches a channel off in a bus where it has an input of its own all the same", () => {
    const inputs = [ofBus("Drums"), ofBus("Drums", "right"), own("Kick"), own("Trumpet"), own("Sax")];
    const [first] = said(patched(4, BAND, [DRUMS], inputs));
    expect(first?.moves).toEqual([
      { move: "leave", channel: "Kick", bus: "Drums" },
      horns(["Trumpet", "Sax"]),
    ]);
  });

  it("is nothing where everything has room", () => {
    expect(freeingQuestion(exampleSetup(), NO_PINS)).toBeNull();
  });
});
