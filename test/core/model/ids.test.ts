import { describe, expect, it } from "vitest";
import { nextId, uniqueName } from "../../../src/core/model/ids";

describe("the id of something new", () => {
  const next = (...ids: string[]) =>
    nextId(
      "s",
      ids.map((id) => ({ id })),
    );

  it("is one more than there are", () => {
    expect([next(), next("s1"), next("s1", "s2")]).toEqual(["s1", "s2", "s3"]);
    expect(nextId("l", [{ id: "l1" }])).toBe("l2");
  });

  it("is none that the list has, also after one was taken away", () => {
    expect([next("s2"), next("s1", "s3"), next("s3", "s4")]).toEqual(["s3", "s4", "s5"]);
  });
});

describe("the name of something new", () => {
  const named = (name: string, ...others: string[]) =>
    uniqueName(
      name,
      others.map((other) => ({ name: other })),
    );

  it("is the one asked for where no other has it", () => {
    expect([named("Tom"), named("Tom 2", "Tom", "Tom 3"), named("Tom", "tom")]).toEqual([
      "Tom",
      "Tom 2",
      "Tom",
    ]);
  });

  it("else has the next number that is free", () => {
    expect(named("Tom", "Tom")).toBe("Tom 2");
    expect(named("Floor tom", "Floor tom", "Floor tom 2", "Floor tom 3", "Floor tom 5")).toBe("Floor tom 4");
  });

  it("counts on from a number that it ends with, of one digit or more", () => {
    expect(named("Tom 2", "Tom 2")).toBe("Tom 3");
    expect(named("Backing voice 9", "Backing voice 9", "Backing voice 10")).toBe("Backing voice 11");
    expect(named("Conga 12", "Conga 12")).toBe("Conga 13");
    expect(named("Tom 2 low", "Tom 2 low")).toBe("Tom 2 low 2");
  });

  it("grows to what can be typed and no further; one that is longer stays as long as it is", () => {
    const typed = "n".repeat(80);
    expect(named(typed, typed)).toBe(`${"n".repeat(78)} 2`);
    expect(named("n".repeat(79), "n".repeat(79))).toBe(`${"n".repeat(78)} 2`);
    const long = "\u{1F941}".repeat(2000);
    expect(named(long, long)).toBe(`${"\u{1F941}".repeat(1998)} 2`);
    expect(named(typed, typed, `${"n".repeat(78)} 2`)).toBe(`${"n".repeat(78)} 3`);
    expect(named(`${"n".repeat(78)} 9`, `${"n".repeat(78)} 9`)).toBe(`${"n".repeat(77)} 10`);
  });

  it("is none where none is asked for", () => {
    expect([named("", ""), named("", "Tom")]).toEqual(["", ""]);
  });

  it("keeps every line of a name that a file brings with a line break in it", () => {
    expect(named("Mara\nTom 2", "Mara\nTom 2")).toBe("Mara\nTom 2 2");
  });
});
