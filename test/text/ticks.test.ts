import { expect, it } from "vitest";
import { busContents } from "../../src/core/inputs/bus-contents";
import { exampleSetup } from "../../src/document/example";
import { formatInside } from "../../src/text/bus-sheet";
import { describeWord } from "../../src/text/ticks";

const time = (at: string): string => at.slice(11, 16);
const word = { control: "line check", said: true, at: "2031-05-04T18:20:00.000Z", by: "Jo" };

it("a word says what, who and when; a control is set, an input is OK", () => {
  expect(describeWord(word, time)).toBe("OK: Jo, 18:20");
  expect(describeWord({ ...word, said: false }, time)).toBe("no signal: Jo, 18:20");
  expect(describeWord({ ...word, said: null }, time)).toBe("unticked: Jo, 18:20");
  expect(describeWord({ ...word, control: "pan", by: "" }, time)).toBe("set: 18:20");
});

it("a bus on the line check names what passes it, and nothing that is off", () => {
  const setup = exampleSetup();
  const [drums] = busContents(setup);
  const contents = drums?.contents ?? [];
  const off = contents.map((c, at) => (at === 1 ? { ...c, send: { ...c.send, on: false } } : c));
  expect(formatInside(contents, setup)).toBe(
    "Contains: Kick, Snare, Hat, Tom 1, Tom 2, Floor tom, Overhead L, Overhead R.",
  );
  expect(formatInside(off, setup)).not.toContain("Snare");
  expect(formatInside([], setup)).toBe("");
});
