import { describe, expect, it } from "vitest";
import { type Loss, lossesOf } from "../../../src/core/inputs/losses";
import type { Bus, Channel, Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum", pan: 0 });
const HAT = channel("Hat", { kind: "drum", pan: 1 });
const TOM = channel("Tom", { kind: "drum", pan: -1 });
const BOTH = [side("Drums", "left"), side("Drums", "right")] as const;

/** What is lost when the pair of these channels goes to mono, in a linear law where asked. */
const pairFolded = (channels: readonly Channel[], law: "sine" | "linear" = "sine"): Loss[] => {
  const s = setup(
    channels,
    [
      bus(
        "Drums",
        channels.map((o) => o.id),
      ),
    ],
    BOTH,
  );
  const asked: Setup = {
    ...s,
    desk: { ...s.desk, law, centreDb: law === "sine" ? 3 : 6 },
  };
  return lossesOf(asked, { move: "fold", of: "bus", id: "Drums", keeps: 0, inputs: [0, 1] });
};

/** What two equal powers have over one: 10 lg 2 = 3.01 dB. */
const TWICE = expect.closeTo(10 * Math.log10(2), 9);
const toMono = (...aside: string[]) => ({ loss: "bus to mono", bus: "Drums", aside });
const balance = (fold: "sends" | "sides", channel: string, against: string) => ({
  loss: "balance",
  fold,
  up: { channel, against, by: TWICE },
  gone: [],
});
const likelyPeaks = (losses: readonly Loss[]) => losses.filter((l) => l.loss === "likely peak");
const apart = (channels: readonly string[], from: string | null = null) => ({
  loss: "apart",
  channels,
  from,
});

const quiet = (o: Channel): Channel => ({ ...o, peak: null });

describe("a pair that goes to mono", () => {
  it("says which images collapse, and how a console that adds the sides shifts the levels", () => {
    // sin/cos: both sides of a centre carry −3.01 dB, so left + right is 3.01 dB over a side; as mono sends all are alike.
    expect(pairFolded([KICK, HAT, TOM].map(quiet))).toEqual([
      toMono("Hat", "Tom"),
      balance("sides", "Kick", "Tom"),
    ]);
    expect(pairFolded([KICK, HAT].map(quiet))[0]).toEqual(toMono("Hat"));
  });

  it("says how the levels shift as mono sends, where the law is not one of constant power", () => {
    // Linear: a centre is −6.02 dB in both sides, an energy of −3.01 dB; its sides add up to what a side has.
    expect(pairFolded([HAT, KICK, TOM].map(quiet), "linear")).toEqual([
      toMono("Hat", "Tom"),
      balance("sends", "Kick", "Tom"),
    ]);
  });

  it("of nothing but the middle says so", () => {
    expect(pairFolded([quiet(KICK)])).toEqual([toMono()]);
  });

  it("says where the likely peak goes, and nothing where it stays or is not known", () => {
    // A centre channel alone, peak −10.0 dBFS: −13.0 in each side, −10.0 in the one that is left.
    expect(likelyPeaks(pairFolded([KICK]))).toEqual([
      {
        loss: "likely peak",
        bus: "Drums",
        from: expect.closeTo(-10 - 10 * Math.log10(2), 9),
        to: expect.closeTo(-10, 9),
      },
    ]);
    expect(pairFolded([HAT])).toEqual([toMono("Hat")]);
    expect(likelyPeaks(pairFolded([KICK, quiet(HAT)]))).toEqual([]);
    expect(likelyPeaks(pairFolded([]))).toEqual([]);
    // A send that nothing comes through leaves −∞ on both sides.
    expect(likelyPeaks(pairFolded([{ ...KICK, muted: true }]))).toEqual([]);
  });
});

describe("a pair among others that goes to mono", () => {
  const folded = (more: Partial<Bus>) => {
    const channels = [KICK, HAT, TOM].map(quiet);
    const sends = channels.map((o) => o.id);
    return lossesOf(setup(channels, [bus("Other", []), bus("Drums", sends, more)], BOTH), {
      move: "fold",
      of: "bus",
      id: "Drums",
      keeps: 0,
      inputs: [0, 1],
    });
  };

  it("shifts its levels by as much, whatever both sides are trimmed to", () => {
    // −6 dB on both sides: centre and side fall alike and stay 3.01 dB apart.
    expect(folded({ sideTrim: [-6, -6] })).toEqual([toMono("Hat", "Tom"), balance("sides", "Kick", "Tom")]);
  });

  it("says what cancels in the fold, and compares no level with it", () => {
    // One side turned: what is in the middle is silence in left + right, −∞; the two sides stay alike.
    expect(folded({ sideInverted: [false, true] })).toEqual([
      toMono("Hat", "Tom"),
      { loss: "balance", fold: "sides", up: null, gone: ["Kick"] },
    ]);
    const more = [KICK, { ...KICK, id: "Snare", name: "Snare" }, HAT, { ...TOM, pan: -0.5 }].map(quiet);
    const drums = bus(
      "Drums",
      more.map((o) => o.id),
      { sideInverted: [false, true] },
    );
    expect(
      lossesOf(setup(more, [drums], BOTH), {
        move: "fold",
        of: "bus",
        id: "Drums",
        keeps: 0,
        inputs: [0, 1],
      }).at(-1),
    ).toEqual({
      loss: "balance",
      fold: "sides",
      up: { channel: "Hat", against: "Tom", by: expect.any(Number) },
      gone: ["Kick", "Snare"],
    });
  });
});

describe("a channel of two channels that goes to mono", () => {
  const folded = (keys: Channel) =>
    lossesOf(setup([KICK, keys], [], [direct("Keys", "left"), direct("Keys", "right")]), {
      move: "fold",
      of: "channel",
      id: "Keys",
      keeps: 0,
      inputs: [0, 1],
    });
  const KEYS = channel("Keys", { kind: "keys", lines: 2 });
  // Two equal channels: twice the amplitude where one side has it once, in power √2 each: 10 lg 2 = 3.01 dB.
  const LOSES = [{ loss: "centre up", channel: "Keys", by: TWICE }];

  it("says what becomes of its sides and its middle", () => {
    expect(folded(KEYS)).toEqual(LOSES);
  });

  it("says so when it is marked to keep its sides", () => {
    expect(folded({ ...KEYS, keepSides: true })).toEqual([...LOSES, { loss: "keeps L/R", channel: "Keys" }]);
  });

  it("is another matter than a sum of the same id", () => {
    const s = setup([KEYS], [bus("Keys", [])], [direct("Keys", "left"), direct("Keys", "right")]);
    expect(lossesOf(s, { move: "fold", of: "channel", id: "Keys", keeps: 0, inputs: [0, 1] })).toEqual(LOSES);
  });
});

describe("channels that share an input from now on", () => {
  const VOX = channel("Vox", { kind: "vocal" });
  const together = (...channels: Channel[]) =>
    lossesOf(
      setup(
        channels,
        [],
        channels.map((s) => direct(s.id)),
      ),
      {
        move: "together",
        channels: channels.map((s) => s.id),
        inputs: channels.map((_, i) => i),
      },
    );

  it("cannot be mixed apart; two that peak alike need 6.02 dB more than one", () => {
    // The loudest and the root sum square of the rest: twice the amplitude, 20 lg 2.
    expect(together(KICK, VOX)).toEqual([
      apart(["Kick", "Vox"]),
      { loss: "headroom", by: expect.closeTo(20 * Math.log10(2), 9), known: true },
    ]);
  });

  it("are taken to peak alike where not all peaks are known, which is said", () => {
    expect(together(KICK, quiet(VOX)).at(-1)).toEqual({
      loss: "headroom",
      by: expect.closeTo(20 * Math.log10(2), 9),
      known: false,
    });
  });

  it("of two channels go to mono", () => {
    const keys = channel("Keys", { kind: "keys", lines: 2 });
    expect(together(keys, VOX)[1]).toEqual({ loss: "channel to mono", channel: "Keys" });
    expect(together(KICK, VOX).map((l) => l.loss)).toEqual(["apart", "headroom"]);
  });
});

describe("a channel that goes into a bus", () => {
  it("cannot be mixed apart from it, and raises its likely peak", () => {
    const s = setup(
      [HAT, channel("Vox", { kind: "vocal", pan: 1 })],
      [bus("Other", []), bus("Drums", ["Hat"])],
      [...BOTH, direct("Vox")],
    );
    // −10.0 dBFS twice in the right side: twice the amplitude.
    expect(lossesOf(s, { move: "into", channel: "Vox", bus: "Drums", inputs: [2] })).toEqual([
      apart(["Vox"], "Drums"),
      {
        loss: "likely peak",
        bus: "Drums",
        from: expect.closeTo(-10, 9),
        to: expect.closeTo(-10 + 20 * Math.log10(2), 9),
      },
    ]);
  });
});

describe("a channel that goes into a bus without a peak to speak of", () => {
  const into = (who: Channel, inside: readonly Channel[]) =>
    lossesOf(
      setup(
        [...inside, who],
        [
          bus(
            "Drums",
            inside.map((o) => o.id),
          ),
        ],
        [...BOTH, direct(who.id)],
      ),
      {
        move: "into",
        channel: who.id,
        bus: "Drums",
        inputs: [2],
      },
    );

  it("loses only its own level", () => {
    const vox = channel("Vox", { kind: "vocal" });
    expect(into(vox, [])).toEqual([apart(["Vox"], "Drums")]);
    expect(into(quiet(vox), [KICK])).toHaveLength(1);
    expect(into(vox, [quiet(KICK)])).toHaveLength(1);
  });
});

describe("an input that is freed", () => {
  const s = setup([KICK], [bus("Drums", ["Kick"])], [...BOTH, direct("Kick")]);
  it.each(["copy", "muted", "off", "twice"] as const)("for %s loses what the reason says", (why) => {
    expect(lossesOf(s, { move: "free", why, of: "channel", id: "Kick", inputs: [2] })).toEqual([
      { loss: "freed", why, of: "channel", id: "Kick" },
    ]);
  });
});
