import { describe, expect, it } from "vitest";
import type { Listener, Setup } from "../../../src/core/model/setup";
import { fohPanIssues } from "../../../src/core/stereo/foh-pans";
import { imagesOf } from "../../../src/core/stereo/image";
import { exampleSetup } from "../../../src/document/example";
import { AUDIENCE, kit } from "../recommend/setups";

const fohPans = (setup: Setup) => fohPanIssues(setup, imagesOf(setup));

describe("channel pans", () => {
  it("names each that is panned from the drummer's side", () => {
    const setup = {
      ...kit(),
      channels: kit().channels.map((s) => (s.id === "hat" ? { ...s, pan: -0.7 } : s)),
    };
    expect(fohPans(setup)).toEqual([{ channel: "hat", heard: "left", stands: "right", asDrummer: true }]);
    const all = { ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: -s.pan })) };
    expect(fohPans(all).map((f) => f.channel)).toEqual(["hat", "tom", "floor", "ride"]);
  });

  it("with the drummer's back to the audience a wrong pan is not the drummer's side either", () => {
    const setup = { ...kit(), kit: { ...kit().kit, yaw: 180 } };
    expect(fohPans(setup)).toHaveLength(4);
    expect(fohPans(setup).map((f) => f.asDrummer)).toEqual([false, false, false, false]);
    expect(fohPans(setup)[0]).toMatchObject({ heard: "right", stands: "left" });
  });

  it("leaves out what was told of already", () => {
    const setup = { ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: -s.pan })) };
    expect(fohPanIssues(setup, imagesOf(setup), ["hat", "ride"]).map((f) => f.channel)).toEqual([
      "tom",
      "floor",
    ]);
  });

  it("of several who hear FOH none counts before the others", () => {
    const wrong = { ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: -s.pan })) };
    const balcony = { ...AUDIENCE, id: "balcony", name: "Balcony" };
    const inEitherOrder = (setup: Setup, more: Listener) =>
      [
        [...setup.listeners, more],
        [more, ...setup.listeners],
      ].map((listeners) => fohPans({ ...setup, listeners }).map((f) => f.channel));
    const all = ["hat", "tom", "floor", "ride"];
    expect(inEitherOrder(wrong, balcony)).toEqual([all, all]);
    // The lobby in mono hears no side, and takes nothing from what is wrong in the hall.
    expect(inEitherOrder(wrong, { ...balcony, mono: true })).toEqual([all, all]);
    // With L/R flipped on the way to the balcony, no pan is right for both.
    expect(inEitherOrder(wrong, { ...balcony, flipped: true })).toEqual([[], []]);
    expect(inEitherOrder(kit(), { ...balcony, flipped: true })).toEqual([[], []]);
    const nobody = kit().listeners.filter(({ kind }) => kind !== "audience");
    expect(fohPans({ ...wrong, listeners: nobody })).toEqual([]);
  });

  it("says nothing where the audience sees the kit side-on, or everything is at the centre, nor of the worked example", () => {
    expect(fohPans(exampleSetup())).toEqual([]);
    expect(fohPans({ ...kit(), kit: { ...kit().kit, yaw: 90 } })).toEqual([]);
    expect(fohPans({ ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: 0 })) })).toEqual([]);
  });
});
