import { describe, expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import {
  describeFit,
  describeFitReason,
  describeShort,
  formatHeadroom,
} from "../../../src/core/headroom/say";
import type { Bus, Channel } from "../../../src/core/model/setup";
import { channel, setupOf } from "./setups";

const MARGIN = 6;

/** What is said of a bus in which one channel hard left has a peak, dBFS; the input takes 18 dBu, so all ceilings are 0 dBFS. */
const said = (peak: number | null, given: Partial<Bus> = {}, more: readonly Channel[] = []) => {
  const setup = setupOf([channel("snare", { name: "Snare", pan: -1, peak }), ...more], {
    bus: given,
    inputMaxDbu: 18,
    margin: MARGIN,
  });
  const bus = setup.buses[0] as Bus;
  const figures = busFigures(setup, bus);
  return {
    ...describeFit(figures, bus, MARGIN),
    reason: describeFitReason(setup, bus, figures),
    short: describeShort(figures, bus, MARGIN),
  };
};

describe("will it fit", () => {
  it("says by how much it is over, and never by 0.0 dB", () => {
    expect(said(1.24)).toMatchObject({
      tone: "wrong",
      says: "It will not fit: 1.2 dB over at the bus",
      short: "Drums will not fit: 1.2 dB over at the bus.",
    });
    expect(said(0.06).says).toBe("It will not fit: 0.1 dB over at the bus");
    expect(said(0.04)).toMatchObject({
      tone: "wrong",
      says: "It will not fit: just over at the bus",
      short: "Drums will not fit: just over at the bus.",
    });
  });

  it("says what is left where that is less than wanted, and never that it is what is wanted", () => {
    expect(said(-4.7)).toMatchObject({
      tone: "care",
      says: "It fits, but only 4.7 dB are left at the bus: you want 6.0",
      short: "Drums has only 4.7 dB left at the bus.",
    });
    expect(said(-5.98)).toMatchObject({
      tone: "care",
      says: "It fits, but not quite 6.0 dB are left at the bus: you want 6.0",
      short: "Drums has not quite 6.0 dB left at the bus.",
    });
  });

  it("says what is left where it fits, at the ceiling that decides", () => {
    expect(said(-7)).toMatchObject({ tone: "fine", says: "It fits: 7.0 dB left at the bus" });
    expect(said(-7, { trim: 0.5 }).says).toBe("It fits: 6.5 dB left at the output");
    expect(said(-7, { padDb: -0.5 }).says).toBe("It fits: 6.5 dB left at the receiving input");
  });

  it("says where nothing sounds and where nothing is known", () => {
    expect(said(-7, { sends: [] })).toMatchObject({ tone: "care", says: "Nothing sounds in Drums" });
    expect(said(null)).toMatchObject({ tone: "care", says: "Will it fit? No peak is known yet in Drums" });
  });

  it("of any headroom, the same words", () => {
    expect(formatHeadroom(-0.04, "input", "over")).toBe("just over at the receiving input");
    expect(formatHeadroom(-0.31, "output", "over")).toBe("0.3 dB over at the output");
    expect(formatHeadroom(0.04, "bus", "under target")).toBe("0.0 dB left at the bus");
  });
});

describe("the reason", () => {
  it("is the peak that decides and what is loudest in it", () => {
    expect(said(-7).reason).toBe("Likely peak −7.0 dBFS on the left side; loudest in it is Snare with −7.0.");
    expect(said(-7, { stereo: false }).reason).toBe(
      "Likely peak −7.0 dBFS on the side; loudest in it is Snare with −7.0.",
    );
    const right = channel("ride", { name: "Ride", pan: 1, peak: -3 });
    expect(said(-7, {}, [right]).reason).toBe(
      "Likely peak −3.0 dBFS on the right side; loudest in it is Ride with −3.0.",
    );
  });

  it("says how many are not counted, and what to do where nothing is known or sent", () => {
    expect(said(-7, {}, [channel("tom", { peak: null })]).reason).toMatch(
      /-?7\.0\. Not counted: 1 source without a known peak\.$/,
    );
    expect(said(null).reason).toBe("Enter levels and peaks under Kit, or measure a recording.");
    expect(said(-7, { sends: [] }).reason).toBe("Choose below what goes into it.");
  });
});
