import { expect, it } from "vitest";
import { readName } from "../../../src/core/inputs/names";
import { pieceOf } from "../../../src/core/inputs/pieces";
import { templateSetup } from "../../../src/document/templates";

const { pieces } = templateSetup(12, "right").kit;

it.each([
  ["Kik In", "Kick"],
  ["1 BD Out", "Kick"],
  ["Snr Btm", "Snare"],
  ["HH", "Hat"],
  ["T2", "Tom 2"],
  ["Rack 1", "Tom 1"],
  ["FT 2", "Floor tom 2"],
  ["OH SR", "Overhead L"],
  ["OHR", "Overhead R"],
  ["overhead l", "Overhead L"],
  // Which of two, or none of them, the name does not tell.
  ["Tom", null],
  ["Tom 3", null],
  ["Floor", null],
  ["OH", null],
  ["Congas", null],
  ["Bass", null],
])("%s is at %s", (typed, name) => {
  expect(pieceOf(pieces, readName(typed))?.name ?? null).toBe(name);
});
