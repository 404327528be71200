import { describe, expect, it } from "vitest";
import { drumsIn, pickupOf } from "../../../src/core/check/pickup";
import type { Bus, Channel, Piece, Setup } from "../../../src/core/model/setup";
import { setupWith } from "./kits";

const setup = setupWith(8, "sine");
const bus = (of: Setup): Bus => of.buses[0] as Bus;
const piece = (of: Setup, id: string): Piece => of.kit.pieces.find((p) => p.id === id) as Piece;
const channel = (of: Setup, id: string): Channel => of.channels.find((s) => s.id === id) as Channel;
const gain = (of: Setup, drum: string, by: string, overheads = 0) =>
  pickupOf(of)(piece(of, drum), channel(of, by), overheads);
const drums = (of: Setup) => drumsIn(of, bus(of), pickupOf(of)).map((p) => p.id);
const db = (value: number) => 20 * Math.log10(value);

describe("who picks up a drum", () => {
  it("is its own microphone fully, and no other close one", () => {
    expect(gain(setup, "hat", "hat")).toBe(1);
    expect(gain(setup, "hat", "snare")).toBe(0);
  });

  it("is every overhead, by distance: 0.9 m above the hat it hangs 0.92 m away", () => {
    const away = Math.hypot(0.2, 0.9);
    expect(db(gain(setup, "hat", "overLeft"))).toBeCloseTo(-db(away), 9);
    expect(db(gain(setup, "hat", "overLeft", -12))).toBeCloseTo(-12 - db(away), 9);
  });

  it("is the other overhead softer and later: 1.36 m, 1.27 ms later, which counts as 6.4 dB", () => {
    const near = Math.hypot(0.2, 0.9);
    const far = Math.hypot(1, 0.2, 0.9);
    const later = ((far - near) / 343) * 1000 * 5;
    expect(later).toBeCloseTo(6.4, 1);
    expect(db(gain(setup, "hat", "overRight"))).toBeCloseTo(-db(far) - later, 9);
  });

  it("counts a late arrival as 8 dB at most", () => {
    const pieces = setup.kit.pieces.map((p) => (p.id === "overRight" ? { ...p, x: 4 } : p));
    const wide: Setup = { ...setup, kit: { ...setup.kit, pieces } };
    expect(db(gain(wide, "hat", "overRight"))).toBeCloseTo(-db(Math.hypot(4.5, 0.2, 0.9)) - 8, 9);
  });

  it("is no stereo channel over the kit: nobody has said which of its sides is where", () => {
    const channels = setup.channels.map((s) => (s.id === "overLeft" ? { ...s, lines: 2 as const } : s));
    const stereo: Setup = { ...setup, channels };
    expect(gain(stereo, "hat", "overLeft")).toBe(0);
    // The other one is now the nearest: nothing is later.
    expect(db(gain(stereo, "hat", "overRight"))).toBeCloseTo(-db(Math.hypot(1, 0.2, 0.9)), 9);
  });
});

describe("what can be hit", () => {
  it("is every drum with a microphone of its own or under overheads, and no microphone", () => {
    expect(drums(setup)).toEqual(["kick", "snare", "hat", "tom1", "tom2", "floor", "ride", "crash"]);
  });

  it("is nothing that only a muted channel hears, or one whose send is off", () => {
    const muted = (ids: readonly string[]): Setup => ({
      ...setup,
      channels: setup.channels.map((s) => ({ ...s, muted: ids.includes(s.id) })),
    });
    expect(drums(muted(["overLeft"]))).toContain("crash");
    expect(drums(muted(["overLeft", "overRight"]))).toEqual([
      "kick",
      "snare",
      "hat",
      "tom1",
      "tom2",
      "floor",
    ]);
    expect(drums(muted(["overLeft", "overRight", "hat"]))).not.toContain("hat");
    const sends = bus(setup).sends.map((s) => (s.channel.startsWith("over") ? { ...s, level: null } : s));
    expect(drums({ ...setup, buses: [{ ...bus(setup), sends }] })).not.toContain("crash");
  });
});
