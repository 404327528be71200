import { describe, expect, it } from "vitest";
import type { Setup } from "../../../src/core/model/setup";
import { fohPanIssues } from "../../../src/core/stereo/foh-pans";
import { type Image, imagesOf } from "../../../src/core/stereo/image";
import { exampleSetup } from "../../../src/document/example";
import { kit } from "../recommend/setups";

const fohPans = (setup: Setup) => {
  const image = imagesOf(setup).find((i) => i.hears === "foh");
  if (!image) throw new Error("no audience");
  return fohPanIssues(setup, image);
};

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
    const image = imagesOf(setup).find((i) => i.hears === "foh") as Image;
    expect(fohPanIssues(setup, image, ["hat", "ride"]).map((f) => f.channel)).toEqual(["tom", "floor"]);
  });

  it("says nothing where the audience sees the kit side-on, or everything is at the centre, nor of the worked example", () => {
    expect(fohPans(exampleSetup())).toEqual([]);
    expect(fohPans({ ...kit(), kit: { ...kit().kit, yaw: 90 } })).toEqual([]);
    expect(fohPans({ ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: 0 })) })).toEqual([]);
  });
});
