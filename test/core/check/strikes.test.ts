import { describe, expect, it } from "vitest";
import { type Strike, soundThrough, strikesOf } from "../../../src/core/check/strikes";
import type { Bus, Channel, Setup } from "../../../src/core/model/setup";
import { setupWith } from "./kits";

const busIn = (setup: Setup): Bus => setup.buses[0] as Bus;
const strikes = (setup: Setup) => strikesOf(setup, busIn(setup));
const pieces = (setup: Setup) => strikes(setup).map((s) => s.piece);

describe("what can be hit", () => {
  it("is every piece with a microphone of its own, and no whole-kit microphone", () => {
    expect(pieces(setupWith(8, "sine"))).toEqual(["kick", "snare", "hat", "tom1", "tom2", "floor"]);
  });

  it("leaves out what is muted or whose send is off", () => {
    const setup = setupWith(10, "sine");
    const muted = {
      ...setup,
      channels: setup.channels.map((s) => (s.id === "hat" ? { ...s, muted: true } : s)),
    };
    expect(pieces(muted)).not.toContain("hat");
    const bus = busIn(setup);
    const off = { ...bus, sends: bus.sends.map((s) => (s.channel === "snare" ? { ...s, level: null } : s)) };
    expect(pieces({ ...setup, buses: [off] })).not.toContain("snare");
  });

  it("adds pieces through the nearest whole-kit microphone when fewer than five have their own", () => {
    const found = strikes(setupWith(4, "sine"));
    expect(found.map((s) => s.piece)).toEqual(["kick", "snare", "hat", "tom1", "floor", "ride", "crash"]);
    const through = new Map(found.map((s) => [s.piece, s]));
    expect(through.get("hat")).toMatchObject({
      through: "whole",
      channels: ["overLeft"],
      far: ["overRight"],
    });
    expect(through.get("ride")).toMatchObject({
      through: "whole",
      channels: ["overRight"],
      far: ["overLeft"],
    });
    expect(through.get("snare")).toMatchObject({ through: "own", channels: ["snare"], far: [] });
  });

  it("hears a piece between two whole-kit microphones through both", () => {
    const setup = setupWith(3, "sine");
    const kit = {
      ...setup.kit,
      pieces: setup.kit.pieces.map((p) => (p.id === "tom1" ? { ...p, x: 0.01 } : p)),
    };
    expect(strikes({ ...setup, kit }).find((s) => s.piece === "tom1")).toMatchObject({
      channels: ["overLeft", "overRight"],
      far: [],
    });
    // The snare is hardly off the middle.
    expect(strikes(setup).find((s) => s.piece === "snare")?.channels).toEqual(["overLeft", "overRight"]);
  });

  it("sounds through its own microphone fully, through a far one 10 dB softer, through another piece's not at all", () => {
    const setup = setupWith(3, "sine");
    const hat = strikes(setup).find((s) => s.piece === "hat") as Strike;
    const through = (id: string) => soundThrough(hat, setup.channels.find((s) => s.id === id) as Channel);
    expect(through("overLeft")).toBe(1);
    expect(through("overRight")).toBeCloseTo(0.31622776601683794, 15);
    expect(through("kick")).toBe(0);
  });

  it("does not guess the side in a stereo channel over the kit", () => {
    const setup = setupWith(3, "sine");
    const channels = setup.channels.map((s) => (s.id === "kick" ? s : { ...s, lines: 2 as const }));
    expect(pieces({ ...setup, channels })).toEqual(["kick"]);
  });

  it("adds none once five pieces have a microphone of their own", () => {
    const setup = setupWith(8, "sine");
    const heard = (...off: readonly string[]) =>
      pieces({ ...setup, channels: setup.channels.map((s) => ({ ...s, muted: off.includes(s.id) })) });
    expect(heard("tom2")).toEqual(["kick", "snare", "hat", "tom1", "floor"]);
    expect(heard("tom1", "tom2")).toContain("crash");
  });

  it("takes the whole-kit microphone that is nearest across the kit and along it, and one 20 cm farther too", () => {
    const setup = setupWith(3, "sine");
    const hears = (left: readonly [number, number], right: readonly [number, number]) => {
      const at: { readonly [id: string]: readonly [number, number] } = {
        overLeft: left,
        overRight: right,
        snare: [0, 0.5],
      };
      const moved = setup.kit.pieces.map((p) => {
        const [x, y] = at[p.id] ?? [p.x, p.y];
        return { ...p, x, y };
      });
      const kit = { ...setup.kit, pieces: moved };
      return strikes({ ...setup, kit }).find((s) => s.piece === "snare")?.channels;
    };
    // One before the snare, one behind it.
    expect(hears([0, 0.75], [0, -0.25])).toEqual(["overLeft"]);
    expect(hears([0.3, 0.5], [-0.5, 0.5])).toEqual(["overLeft", "overRight"]);
    expect(hears([0.3, 0.5], [-0.51, 0.5])).toEqual(["overLeft"]);
  });

  it("counts no source over the kit that has no place there", () => {
    const setup = setupWith(4, "sine");
    const voice: Channel = { ...(setup.channels[0] as Channel), id: "vocal", piece: null };
    const buses = [
      { ...busIn(setup), sends: [...busIn(setup).sends, { channel: "vocal", on: true, level: 0, tap: "post-fader" as const, pan: null }] },
    ];
    expect(strikes({ ...setup, channels: [...setup.channels, voice], buses })).toEqual(strikes(setup));
  });

  it("sounds past the bus through what stands at its piece, and not through what stands elsewhere", () => {
    const setup = setupWith(8, "sine");
    const [snare, hat] = ["snare", "hat"].map((id) => strikes(setup).find((s) => s.piece === id)) as [
      Strike,
      Strike,
    ];
    // A second microphone at the snare, with no send into this bus.
    const below: Channel = { ...(setup.channels[1] as Channel), id: "below" };
    expect(below.piece).toBe("snare");
    expect(soundThrough(snare, below)).toBe(1);
    expect(soundThrough(hat, below)).toBe(0);
    // With kick and overheads in the bus the snare is hit through the whole kit; its own microphone hears it as before.
    const [whole] = strikes(setupWith(3, "sine")).filter((s) => s.piece === "snare");
    expect(whole?.through).toBe("whole");
    expect(soundThrough(whole as Strike, below)).toBe(1);
  });
});
