import { describe, expect, it } from "vitest";
import { housePanFlags } from "../../src/core/housepans";
import { imagesOf } from "../../src/core/image";
import type { Setup } from "../../src/core/setup";
import { exampleSetup } from "../../src/document/example";
import { kit } from "./repair/setups";

const housePans = (setup: Setup) => {
  const image = imagesOf(setup).find((i) => i.hears === "house");
  if (!image) throw new Error("no audience");
  return housePanFlags(setup, image);
};

describe("house pans", () => {
  it("names each that is panned from the drummer's side", () => {
    const setup = { ...kit(), sources: kit().sources.map((s) => (s.id === "hat" ? { ...s, pan: -0.7 } : s)) };
    expect(housePans(setup)).toEqual([
      {
        source: "hat",
        says: "HAT is panned house left but stands house right for the audience: panned from the drummer’s side.",
      },
    ]);
    const all = { ...kit(), sources: kit().sources.map((s) => ({ ...s, pan: -s.pan })) };
    expect(housePans(all).map((f) => f.source)).toEqual(["hat", "tom", "floor", "ride"]);
  });

  it("with the drummer's back to the audience a wrong pan is not the drummer's side either", () => {
    const setup = { ...kit(), kit: { ...kit().kit, yaw: 180 } };
    expect(housePans(setup)).toHaveLength(4);
    for (const { says } of housePans(setup)) expect(says).not.toContain("drummer");
    expect(housePans(setup)[0]?.says).toBe(
      "HAT is panned house right but stands house left for the audience.",
    );
  });

  it("says nothing where the audience sees the kit side-on, or everything is at the centre, nor of the worked example", () => {
    expect(housePans(exampleSetup())).toEqual([]);
    expect(housePans({ ...kit(), kit: { ...kit().kit, yaw: 90 } })).toEqual([]);
    expect(housePans({ ...kit(), sources: kit().sources.map((s) => ({ ...s, pan: 0 })) })).toEqual([]);
  });
});
