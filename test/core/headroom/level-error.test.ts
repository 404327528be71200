import { describe, expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import type { LevelError } from "../../../src/core/headroom/level-error";
import { BUS, channel, piece, setupOf } from "./setups";

const PIECES = [piece("kick", ["kick-foot"]), piece("over", ["whole"])];
const KICK = channel("k", { piece: "kick" });
const OVER = channel("o", { piece: "over" });

const errorOf = (channels: Parameters<typeof setupOf>[0]): LevelError => {
  const setup = setupOf(channels, { pieces: PIECES });
  return busFigures(setup, setup.buses[0] ?? BUS).levelError;
};

describe("how good the level of a bus is", () => {
  it("of close microphones: as good upwards as downwards", () => {
    expect(errorOf([KICK, channel("vocal")])).toEqual({ below: 1.5, above: 1.5 });
    expect(errorOf([OVER])).toEqual({ below: 1.5, above: 1.5 });
    expect(errorOf([])).toEqual({ below: 1.5, above: 1.5 });
  });

  it("with microphones of the whole kit beside them: more upwards", () => {
    expect(errorOf([KICK, OVER])).toEqual({ below: 1.5, above: 2.5 });
    expect(errorOf([{ ...KICK, muted: true }, OVER])).toEqual({ below: 1.5, above: 1.5 });
  });
});
