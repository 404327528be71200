import { describe, expect, it } from "vitest";
import { sumFigures } from "../../../src/core/sum/figures";
import { printLevelError } from "../../../src/core/sum/levelerror";
import { piece, SUM, setupOf, source } from "./setups";

const PIECES = [piece("kick", ["kick-foot"]), piece("over", ["whole"])];
const KICK = source("k", { piece: "kick" });
const OVER = source("o", { piece: "over" });

const said = (sources: Parameters<typeof setupOf>[0]): string => {
  const setup = setupOf(sources, { pieces: PIECES });
  return printLevelError(sumFigures(setup, setup.sums[0] ?? SUM).levelError);
};

describe("how good the level of a sum is", () => {
  it("of close microphones: as good upwards as downwards", () => {
    expect(said([KICK, source("voice")])).toBe("±1.5");
    expect(said([OVER])).toBe("±1.5");
    expect(said([])).toBe("±1.5");
  });

  it("with microphones of the whole kit beside them: more upwards", () => {
    expect(said([KICK, OVER])).toBe("−1.5 +2.5");
    expect(said([{ ...KICK, muted: true }, OVER])).toBe("±1.5");
  });
});
