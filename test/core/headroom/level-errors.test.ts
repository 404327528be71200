import { describe, expect, it } from "vitest";
import { FOUND_ERRORS, levelErrorsOf } from "../../../src/core/headroom/level-errors";
import type { Channel, Recording } from "../../../src/core/model/setup";
import { channel, onlyBus, piece, recordingOf, setupOf } from "./setups";

const PIECES = [piece("kick", ["kick-foot"]), piece("snare", ["hand"]), piece("overheads", ["whole"])];
const drum = (id: string, at: string, given: Partial<Channel> = {}): Channel =>
  channel(id, { piece: at, activity: null, ...given });
const KICK = drum("kick", "kick");
const SNARE = drum("snare", "snare");
const BOTTOM = drum("bottom", "snare");
const OVERHEADS = [drum("over l", "overheads"), drum("over r", "overheads")];

const errorsOf = (channels: readonly Channel[], recording: Recording | null = null) => {
  const setup = setupOf(channels, { pieces: PIECES, recording });
  return levelErrorsOf(setup, onlyBus(setup));
};

describe("how good the levels of a bus of drums are", () => {
  it("two microphones at one drum make them worse; two overheads are no such pair", () => {
    const { average, level } = FOUND_ERRORS;
    expect(errorsOf([KICK, SNARE, ...OVERHEADS])).toEqual({
      average: average.typical.single,
      level: level.single,
    });
    expect(errorsOf([KICK, SNARE, BOTTOM])).toEqual({
      average: average.typical.doubled,
      level: level.doubled,
    });
  });

  it("the average is better where the activity of all is entered or measured", () => {
    const known = FOUND_ERRORS.average.known.single;
    const typical = FOUND_ERRORS.average.typical.single;
    const measured = recordingOf(["kick", "snare"], 0);
    const recording = {
      ...measured,
      channels: measured.channels.map((m) => ({ ...m, activity: m.channel === "kick" ? 0.8 : null })),
    };
    expect(known).not.toEqual(typical);
    expect(errorsOf([KICK, SNARE], recording)?.average).toEqual(typical);
    expect(errorsOf([KICK, { ...SNARE, activity: 0.5 }], recording)?.average).toEqual(known);
  });

  it("is not known with anything else in it, with a level that is not entered, and of one channel", () => {
    expect(errorsOf([KICK, SNARE, drum("singer", "kick", { kind: "lead-vocal" })])).toBeNull();
    expect(errorsOf([KICK, SNARE, drum("talk", "nowhere")])).toBeNull();
    expect(errorsOf([KICK, SNARE, drum("hat", "snare", { gatedRms: null })])).toBeNull();
    expect(errorsOf([KICK])).toBeNull();
    // What is muted is not in it.
    expect(errorsOf([KICK, SNARE, channel("keys", { kind: "keys", muted: true })])).not.toBeNull();
  });
});
