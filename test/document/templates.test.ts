import { beforeEach, describe, expect, it } from "vitest";
import { evaluate } from "../../src/core/evaluate";
import { imagesOf } from "../../src/core/stereo/image";
import { mend } from "../../src/document/mend";
import type { SetupFile } from "../../src/document/schema";
import { MICROPHONE_COUNTS, templateSetup } from "../../src/document/templates";

const all = MICROPHONE_COUNTS.flatMap((count) =>
  (["right", "left", "open"] as const).map((hand) => ({ count, hand })),
);

describe.each(all)("the template of $count microphones, $hand-handed", ({ count, hand }) => {
  let setup: SetupFile;
  beforeEach(() => {
    setup = templateSetup(count, hand);
  });
  const image = (kind: string) => imagesOf(setup).find((_, at) => setup.listeners[at]?.kind === kind);
  const name = (at: number) => setup.channels[at]?.name;

  it("has that many microphones, all in the pair, at a piece each, under names of their own", () => {
    expect(setup.channels).toHaveLength(count);
    expect(setup.buses[0]?.sends.map((s) => s.channel)).toEqual(setup.channels.map((s) => s.id));
    expect(setup.channels.every((s) => s.piece !== null)).toBe(true);
    expect(new Set(setup.channels.map((s) => s.name)).size).toBe(count);
    expect(setup.buses[0]?.sends.every((s) => s.level !== null && s.level <= 0)).toBe(true);
  });

  it("has a whole kit, each piece once and in a place of its own, with or without a microphone", () => {
    const { pieces } = setup.kit;
    const kinds = pieces.map((p) => p.kind).filter((kind) => kind !== "overhead");
    expect(new Set(kinds)).toEqual(new Set(["kick", "snare", "hat", "tom", "floor", "ride", "crash"]));
    expect(kinds.filter((kind) => kind === "tom")).toHaveLength(2);
    expect(kinds.filter((kind) => kind === "floor")).toHaveLength(count === 12 ? 2 : 1);
    expect(new Set(pieces.map((p) => p.name)).size).toBe(pieces.length);
    expect(new Set(pieces.map((p) => p.id)).size).toBe(pieces.length);
    expect(new Set(pieces.map((p) => `${p.x} ${p.y}`)).size).toBe(pieces.length);
  });

  it("is whole, no example, and patched", () => {
    expect(mend(setup)).toBe(setup);
    expect(setup.example).toBe(false);
    expect(setup.name).toBe(`${count} drum microphones`);
    expect(setup.kit.hand).toBe(hand);
    expect(setup.kit.pieces.map((p) => [p.id, p.player])).toEqual(
      setup.kit.pieces.map((_, at) => [`p${at + 1}`, "drummer"]),
    );
    expect(setup.monitor.inputs.slice(0, 2).every((s) => s?.on)).toBe(true);
    expect(setup.listeners.map((l) => [l.kind, l.bus])).toEqual([
      ["audience", null],
      ["drummer", "m1"],
    ]);
    for (const channel of setup.channels) {
      expect([channel.muted, channel.keepSides]).toEqual([false, false]);
      expect(channel.inverted).toBe(channel.name === "Snare bottom");
    }
    expect(setup.monitor.inputs.slice(0, 3).map((s) => s?.feed)).toEqual([
      { kind: "bus", bus: "m1", side: "left" },
      { kind: "bus", bus: "m1", side: "right" },
      undefined,
    ]);
  });

  it("is right for the audience from side to side, and turned round for the drummer", () => {
    expect(image("audience")?.count).toMatchObject({ wrong: 0, centred: 0, unplaced: 0 });
    const sided = image("audience")?.rows.flatMap((row, at) => (row.stands === "middle" ? [] : [name(at)]));
    const wrong = image("drummer")?.rows.flatMap((row, at) => (row.placement === "wrong" ? [name(at)] : []));
    expect(wrong).toEqual(sided);
    expect(image("drummer")?.count.centred).toBe(0);
  });

  it("fits under every ceiling with its margin", () => {
    const ceilings = evaluate(setup).buses.get("m1")?.ceilings ?? [];
    expect(ceilings.map((c) => c.state)).toEqual(["fine", "fine"]);
  });

  it("leaves the peaks below full scale", () => {
    for (const channel of setup.channels) {
      expect(channel.peak).toBeLessThan(0);
      expect(channel.gatedRms ?? 0).toBeLessThan(channel.peak ?? 0);
    }
  });
});

it("has the hat on the side on which it is played", () => {
  const hatX = (hand: "right" | "left" | "open") =>
    templateSetup(10, hand).kit.pieces.find((p) => p.kind === "hat")?.x ?? 0;
  const rideX = (hand: "right" | "left" | "open") =>
    templateSetup(10, hand).kit.pieces.find((p) => p.kind === "ride")?.x ?? 0;
  expect([hatX("right"), hatX("left"), hatX("open")].map(Math.sign)).toEqual([-1, 1, -1]);
  expect([rideX("right"), rideX("left"), rideX("open")].map(Math.sign)).toEqual([1, -1, -1]);
});
