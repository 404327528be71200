import { describe, expect, it } from "vitest";
import { recordAsFound } from "../../../src/core/check/apply";
import { hearingOf } from "../../../src/core/hear/hearing";
import { recordHeard } from "../../../src/core/hear/record";
import { stateOf } from "../../../src/core/hear/state-of";
import { HIGHEST_TRIM, LOWEST_TRIM } from "../../../src/core/model/limits";
import type { Bus, Id } from "../../../src/core/model/setup";
import { withBus } from "../../../src/core/model/update";
import { roundPan } from "../../../src/core/pan/notation";
import { seeded } from "../check/simulate";
import { heardCell, heardHit } from "./sessions";
import { eveningOf, type Wrong } from "./stage";

const EIGHT = heardCell(8, "right", "sine");
const { setup, listener } = EIGHT;
const bus = setup.buses[0] as Bus;
const idOf = (name: string): Id => setup.channels.find((channel) => channel.name === name)?.id as Id;

/** Every drum hit twice, as it is heard. */
const allHeard = (wrong: Wrong, seed: number) => {
  const evening = eveningOf(setup, wrong, 48_000, seeded(seed));
  return [...EIGHT.hearing.drums, ...EIGHT.hearing.drums].flatMap((piece) => {
    const hit = heardHit(evening, piece);
    return hit === "refused" ? [] : [{ piece, hit }];
  });
};

describe("what was measured, recorded", () => {
  it.each<Wrong>([
    { fault: "side-trim", channel: null, size: 5 },
    { fault: "side-trim", channel: null, size: -4 },
    { fault: "wrong-pan", channel: idOf("Snare"), size: -0.8 },
    { fault: "wrong-pan", channel: idOf("Floor tom"), size: 0.2 },
  ])("is the plan of what was heard: $fault $size", (wrong) => {
    const heard = allHeard(wrong, 2_060);
    const [found] = stateOf(EIGHT.hearing, heard).suspects;
    expect(found?.fault).toBe(wrong.fault);
    const recorded = found && recordHeard(setup, listener, found);
    if (!recorded) throw new Error("not recorded");
    const { suspects, drums } = stateOf(hearingOf(recorded, listener, "mixer"), heard);
    expect(suspects[0]?.fault).toBe("planned");
    expect(drums.filter(({ asPlanned }) => asPlanned === false)).toEqual([]);
    // The channel pan is what FOH has.
    expect(recorded.channels).toBe(setup.channels);
  });

  it("has half of a side trim on each side, beside what was there, in steps of the desk", () => {
    const trimmed = {
      ...withBus(setup, bus.id, (its) => ({ ...its, sideTrim: [1, -2] as const })),
      desk: { ...setup.desk, trimStep: 0.5 },
    };
    const recorded = recordHeard(trimmed, listener, {
      fault: "side-trim",
      channel: null,
      pan: null,
      trim: 5.2,
    });
    expect(recorded?.buses[0]?.sideTrim).toEqual([-1.5, 0.5]);
  });

  it.each([
    [HIGHEST_TRIM, 0],
    [0, LOWEST_TRIM],
  ])("is nothing where a trim would go further than it can: %d, %d", (left, right) => {
    const far = withBus(setup, bus.id, (its) => ({ ...its, sideTrim: [left, right] as const }));
    const suspect = { fault: "side-trim", channel: null, pan: null, trim: -6 } as const;
    expect(recordHeard(far, listener, suspect)).toBe(null);
    expect(recordHeard(far, listener, { ...suspect, trim: 6 })).not.toBe(null);
  });

  it("has a pan as the desk has it, in this bus alone", () => {
    const recorded = recordHeard(setup, listener, {
      fault: "wrong-pan",
      channel: idOf("Hat"),
      pan: 0.3333,
      trim: null,
    });
    const pans = recorded?.buses.map((its) => its.sends.map((send) => [send.channel, send.pan]));
    const was = setup.buses.map((its) =>
      its.sends.map((send) => [
        send.channel,
        its === bus && send.channel === idOf("Hat") ? roundPan(0.3333, setup.desk).pan : send.pan,
      ]),
    );
    expect(pans).toEqual(was);
  });

  it("is as of the check at the kit for every other fault, and nothing without a bus", () => {
    const swapped = { fault: "swapped", channel: null, pan: null, trim: null } as const;
    expect(recordHeard(setup, listener, swapped)).toEqual(recordAsFound(setup, listener, swapped));
    const wrong = { fault: "wrong-pan", channel: idOf("Hat"), pan: 1, trim: null } as const;
    expect(recordHeard(setup, { ...listener, bus: null }, wrong)).toBe(null);
  });
});
