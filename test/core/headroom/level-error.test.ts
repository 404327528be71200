import { describe, expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import { formatLevelError } from "../../../src/core/headroom/level-error";
import { BUS, channel, piece, setupOf } from "./setups";

const PIECES = [piece("kick", ["kick-foot"]), piece("over", ["whole"])];
const KICK = channel("k", { piece: "kick" });
const OVER = channel("o", { piece: "over" });

const said = (channels: Parameters<typeof setupOf>[0]): string => {
  const setup = setupOf(channels, { pieces: PIECES });
  return formatLevelError(busFigures(setup, setup.buses[0] ?? BUS).levelError);
};

describe("how good the level of a bus is", () => {
  it("of close microphones: as good upwards as downwards", () => {
    expect(said([KICK, channel("vocal")])).toBe("±1.5");
    expect(said([OVER])).toBe("±1.5");
    expect(said([])).toBe("±1.5");
  });

  it("with microphones of the whole kit beside them: more upwards", () => {
    expect(said([KICK, OVER])).toBe("−1.5 +2.5");
    expect(said([{ ...KICK, muted: true }, OVER])).toBe("±1.5");
  });
});
