import { describe, expect, it } from "vitest";
import { evaluate } from "../../../src/core/evaluate";
import type { Bus, Channel, Setup } from "../../../src/core/model/setup";
import { busOverheads, overheadIssues } from "../../../src/core/stereo/overheads";
import { exampleSetup } from "../../../src/document/example";
import { forHand } from "../../../src/document/places";
import { AUDIENCE, channel, kit, piece, withChannel } from "../recommend/setups";

/** The kit with two overheads: over the drummer's right, which is house left, and over the left. */
const withOverheads = (right: number, left: number, ownRight: number | null = null): Setup => {
  let setup = kit();
  const limbs = ["whole"] as const;
  setup = {
    ...setup,
    kit: {
      ...setup.kit,
      pieces: [
        ...setup.kit.pieces,
        piece("over right", 0.5, 0.5, { kind: "overhead", limbs }),
        piece("over left", -0.5, 0.5, { kind: "overhead", limbs }),
      ],
    },
  };
  setup = withChannel(setup, channel("or", { name: "Overhead L", piece: "over right", pan: right }), {
    pan: ownRight,
  });
  return withChannel(setup, channel("ol", { name: "Overhead R", piece: "over left", pan: left }), {
    pan: ownRight === null ? null : -ownRight,
  });
};

describe("overheads against the close microphones", () => {
  it("says nothing where they agree, and of the worked example", () => {
    expect(overheadIssues(withOverheads(-1, 1))).toEqual([]);
    expect(overheadIssues(exampleSetup())).toEqual([]);
  });

  it("names a crossed pair, once, where the bus follows the channel pans: the overheads are to change", () => {
    expect(overheadIssues(withOverheads(1, -1))).toEqual([
      {
        code: "crossed",
        where: "foh",
        overheads: ["or", "ol"],
        change: "overheads",
        channels: ["or", "ol"],
        hit: "ride",
      },
    ]);
  });

  it("names the one that is on the wrong side", () => {
    const flags = overheadIssues(withOverheads(-1, -0.8));
    expect(flags.map((f) => [f.code, f.where, f.change, f.channels])).toEqual([
      ["mis-sided", "foh", "overheads", ["ol"]],
    ]);
  });

  it("what is kept of a bus follows the kit, the channels, the audience and the bus itself", () => {
    const setup = withOverheads(-1, 1, 1);
    const mixedOf = (of: Setup) => evaluate(of).mixed;
    const before = busOverheads(setup, mixedOf(setup));
    const first = overheadIssues(setup, before);
    expect(first.length).toBeGreaterThan(0);
    const flipX = <T extends { readonly x: number }>(at: T): T => ({ ...at, x: -at.x });
    const changes: readonly Partial<Setup>[] = [
      { kit: { ...setup.kit, pieces: setup.kit.pieces.map((p) => (p.id === "over right" ? flipX(p) : p)) } },
      { channels: setup.channels.map((c) => ({ ...c, muted: c.piece?.startsWith("over") ?? false })) },
      { buses: setup.buses.map((bus) => ({ ...bus, folded: true })) },
    ];
    for (const change of changes) {
      const after = { ...setup, ...change };
      const kept = overheadIssues(after, busOverheads(after, mixedOf(after), before));
      expect(kept).not.toEqual(first);
      expect(kept).toEqual(overheadIssues(after));
    }
    expect(busOverheads({ ...setup }, mixedOf(setup), before).get("m1")).toBe(before.get("m1"));
  });

  /** The drums on the other side, as a left-handed drummer has them; the overheads stay where they are. */
  const leftHanded = (setup: Setup): Setup => ({
    ...setup,
    kit: { ...setup.kit, pieces: setup.kit.pieces.map((p) => forHand(p, "right", "left")) },
  });

  it("names the close microphones of a left-handed drummer on right-handed pans, and not the overheads", () => {
    const setup = leftHanded(withOverheads(-1, 1));
    expect(overheadIssues(setup)).toEqual([
      {
        code: "crossed",
        where: "foh",
        overheads: ["or", "ol"],
        change: "close microphones",
        channels: ["hat", "tom", "floor", "ride"],
        hit: "ride",
      },
    ]);
    // Mirrored, they are as they should be.
    const channels = setup.channels.map((s) => (s.id === "or" || s.id === "ol" ? s : { ...s, pan: -s.pan }));
    expect(overheadIssues({ ...setup, channels })).toEqual([]);
  });

  it("knows of neither where the audience is side-on, or where both or none are right for it", () => {
    const known = (setup: Setup) => overheadIssues(setup).map((f) => [f.change, f.channels, f.hit]);
    const crossed = withOverheads(1, -1);
    expect(known({ ...crossed, kit: { ...crossed.kit, yaw: 90 } })).toEqual([[null, [], "ride"]]);
    expect(known({ ...crossed, listeners: crossed.listeners.slice(1) })).toEqual([[null, [], "ride"]]);
    // With the kit half side-on, what is at its right may be at the audience's right and at its left.
    const turned = { ...crossed, kit: { ...crossed.kit, yaw: -60 } };
    const far = turned.kit.pieces.map((p) =>
      p.kind === "overhead" ? { ...p, y: -2 * Math.sign(p.x) } : { ...p, y: 0 },
    );
    const [flag] = overheadIssues({ ...turned, kit: { ...turned.kit, pieces: far } });
    expect([flag?.code, flag?.change]).toEqual(["crossed", null]);
  });

  it("it does not matter which of several who hear FOH stands first: they all face the stage", () => {
    const crossed = withOverheads(1, -1);
    const balcony = { ...AUDIENCE, id: "balcony", x: 5, y: -6, facing: 0, mono: true, flipped: true };
    const first = { ...crossed, listeners: [balcony, ...crossed.listeners] };
    expect(overheadIssues(first)).toEqual(overheadIssues(crossed));
  });

  it("knows of neither in a bus whose close microphones have pans of their own", () => {
    const setup = withOverheads(-1, 1);
    const own = setup.buses.map((s) => ({
      ...s,
      sends: s.sends.map((send) =>
        send.channel === "or" || send.channel === "ol"
          ? send
          : { ...send, pan: -(setup.channels.find((x) => x.id === send.channel)?.pan ?? 0) },
      ),
    }));
    expect(overheadIssues({ ...setup, buses: own }).map((f) => [f.where, f.code, f.change])).toEqual([
      ["m1", "crossed", null],
    ]);
  });

  it("takes neither muted ones, nor two channels, nor what stands at no side, for close microphones or overheads", () => {
    const crossed = withOverheads(1, -1);
    const change = (of: string, over: Partial<Channel>): Setup => ({
      ...crossed,
      channels: crossed.channels.map((s) => (s.id === of ? { ...s, ...over } : s)),
    });
    expect(overheadIssues(change("ol", { muted: true })).map((f) => [f.code, f.overheads])).toEqual([
      ["mis-sided", ["or"]],
    ]);
    expect(overheadIssues(change("ol", { lines: 2 })).map((f) => f.overheads)).toEqual([["or"]]);
    expect(overheadIssues(change("ol", { piece: null })).map((f) => f.overheads)).toEqual([["or"]]);
    expect(overheadIssues(change("ol", { pan: 0 })).map((f) => f.overheads)).toEqual([["or"]]);
  });

  it("takes one from a hand's width off the middle line on, as the rest of the picture does", () => {
    const at = (x: number): Setup => {
      const setup = withOverheads(-1, -1);
      const pieces = setup.kit.pieces.map((p) => (p.id === "over left" ? { ...p, x } : p));
      return { ...setup, kit: { ...setup.kit, pieces } };
    };
    expect(overheadIssues(at(-0.12)).map((f) => f.overheads)).toEqual([["ol"]]);
    expect(overheadIssues(at(-0.11))).toEqual([]);
  });

  it("takes an overhead that is heard in the middle for neither side", () => {
    expect(overheadIssues(withOverheads(-1, -0.05))).toEqual([]);
  });

  it("lets a close microphone count by how far it is panned, and an overhead not at all", () => {
    const panned = (pans: { readonly [id: string]: number }): Setup => {
      const setup = withOverheads(1, -1);
      const channels = setup.channels.filter((s) => s.id in pans || s.id === "or" || s.id === "ol");
      return { ...setup, channels: channels.map((s) => ({ ...s, pan: pans[s.id] ?? s.pan })) };
    };
    // The hi-hat far at its side, the floor tom a little at the wrong one.
    expect(overheadIssues(panned({ hat: 1, floor: 0.1 })).map((f) => f.overheads)).toEqual([["or", "ol"]]);
    // One close microphone, hardly panned, against two overheads at the ends.
    expect(overheadIssues(panned({ hat: 0.1 })).map((f) => f.overheads)).toEqual([["or", "ol"]]);
  });

  it("names a bus beside FOH where other overheads are wrong in it, or all that it has", () => {
    const of = (setup: Setup) => overheadIssues(setup).map((f) => [f.code, f.where, f.overheads]);
    const own = withOverheads(-1, -0.8);
    const pans = new Map([
      ["or", 0.8],
      ["ol", 1],
    ]);
    const turned = own.buses.map((s) => ({
      ...s,
      sends: s.sends.map((send) => ({ ...send, pan: pans.get(send.channel) ?? null })),
    }));
    expect(of({ ...own, buses: turned })).toEqual([
      ["mis-sided", "foh", ["ol"]],
      ["mis-sided", "m1", ["or"]],
    ]);
    const third = channel("o3", { name: "Overhead far", piece: "over right", pan: -0.9 });
    expect(of(withChannel(withOverheads(1, -1), third, { level: null }))).toEqual([
      ["mis-sided", "foh", ["or", "ol"]],
      ["crossed", "m1", ["or", "ol"]],
    ]);
  });

  it("says nothing where no close microphone tells the sides", () => {
    const crossed = withOverheads(1, -1);
    const close = crossed.channels.filter((s) => s.id !== "or" && s.id !== "ol");
    const silent = new Set(close.map((s) => s.id));
    const setup = {
      ...crossed,
      channels: crossed.channels.map((s) => (silent.has(s.id) ? { ...s, muted: true } : s)),
    };
    expect(overheadIssues(setup)).toEqual([]);
  });

  it("says nothing of a bus that has no sides", () => {
    const setup = withOverheads(-1, 1, 1);
    expect(overheadIssues(setup).map((f) => [f.where, f.code])).toEqual([["m1", "crossed"]]);
    const sideTrim = [0, -6] as const;
    for (const over of [
      { stereo: false },
      { folded: true },
      { stereo: false, sideTrim },
      { folded: true, sideTrim },
    ])
      expect(overheadIssues({ ...setup, buses: setup.buses.map((s) => ({ ...s, ...over })) })).toEqual([]);
  });

  it("calls nothing crossed while one of the overheads is right", () => {
    const third = channel("o3", { name: "Overhead far", piece: "over right", pan: -0.9 });
    const flags = overheadIssues(withChannel(withOverheads(1, -1), third));
    expect(flags.map((f) => [f.code, f.overheads])).toEqual([["mis-sided", ["or", "ol"]]]);
  });

  it("names a bus with pans of its own, and not FOH", () => {
    const flags = overheadIssues(withOverheads(-1, 1, 1));
    expect(flags.map((f) => [f.code, f.where, f.overheads])).toEqual([["crossed", "m1", ["or", "ol"]]]);
  });

  it("a reversed patch, a turned throne or a left-handed kit changes nothing of it", () => {
    for (const [right, left] of [
      [-1, 1],
      [1, -1],
    ] as const) {
      const setup = withOverheads(right, left);
      const codes = (s: Setup) => overheadIssues(s).map((f) => f.code);
      const expected = codes(setup);
      expect(codes({ ...setup, kit: { ...setup.kit, yaw: 180 } })).toEqual(expected);
      const reversed = setup.buses.map((s): Bus => ({ ...s, swapped: true }));
      expect(codes({ ...setup, buses: reversed })).toEqual(expected);
      const mirrored = setup.kit.pieces.map((p) => ({ ...p, x: -p.x }));
      expect(codes({ ...setup, kit: { ...setup.kit, pieces: mirrored } })).toEqual(expected);
    }
  });

  it("says nothing where the close microphones do not tell, or there are none, or in a mono bus", () => {
    const centre = withOverheads(1, -1);
    const close = (s: { id: string }) => s.id !== "or" && s.id !== "ol";
    expect(
      overheadIssues({ ...centre, channels: centre.channels.map((s) => (close(s) ? { ...s, pan: 0 } : s)) }),
    ).toEqual([]);
    expect(overheadIssues({ ...centre, channels: centre.channels.filter((s) => !close(s)) })).toEqual([]);
    // An overhead that is heard in the middle is not called wrong either.
    expect(overheadIssues({ ...centre, channels: centre.channels.map((s) => ({ ...s, pan: 0 })) })).toEqual(
      [],
    );
    const own = withOverheads(-1, 1, 1);
    const folded = own.buses.map((s): Bus => ({ ...s, folded: true }));
    expect(overheadIssues({ ...own, buses: folded })).toEqual([]);
  });
});
