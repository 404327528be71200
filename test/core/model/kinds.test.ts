import { describe, expect, it } from "vitest";
import { isStruck, kitPieceName, LISTENER_KINDS } from "../../../src/core/model/kinds";
import type { Limb } from "../../../src/core/model/setup";
import { piece } from "../recommend/setups";

describe("a piece of the kit", () => {
  it("goes by its name, and by what it is where it has none", () => {
    expect(kitPieceName({ name: "Tom 1", kind: "tom" })).toBe("Tom 1");
    expect(kitPieceName({ name: "", kind: "floor" })).toBe("Floor tom");
  });

  it.each<[string, boolean, readonly Limb[]]>([
    ["a hand sounds is struck", true, ["hand"]],
    ["a foot or a hand sounds is struck", true, ["hand", "hat-foot"]],
    ["nobody has said what sounds it is not", false, []],
    ["hears the whole kit is not", false, ["whole"]],
    ["hears the whole kit is not, though a hand is named as well", false, ["hand", "whole"]],
  ])("one of which %s", (_, struck, limbs) => {
    expect(isStruck(piece("p1", 0, 0, { limbs }))).toBe(struck);
  });

  it("is not struck when there is none", () => {
    expect(isStruck(undefined)).toBe(false);
  });
});

it("whoever hears FOH faces the stage: what is said of the audience goes by any of them", () => {
  const foh = Object.values(LISTENER_KINDS).filter(({ hears }) => hears === "FOH");
  expect(foh.map(({ faces }) => faces)).toEqual(foh.map(() => "stage"));
  expect(foh.length).toBeGreaterThan(0);
});
