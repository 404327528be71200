import { describe, expect, it } from "vitest";
import {
  allowedTime,
  EARPHONE_ERROR,
  EU_VALUES,
  earphoneFigures,
  NIOSH,
  OSHA,
  perVolt,
} from "../../../src/core/headroom/earphone";
import { powerOf } from "../../../src/core/level/decibels";
import type { Earphone } from "../../../src/core/model/setup";
import { EXPOSURE_VALUES } from "../../../src/text/exposure";
import { expectNear, printed } from "../../near";
import { EARPHONES, PER_VOLT } from "../../tables/earphones";
import { EU_2003_10 } from "../../tables/eu-2003-10";
import { NIOSH_TIMES } from "../../tables/niosh-98-126";
import { OSHA_G16, OSHA_G16A } from "../../tables/osha-g16";

const EARPHONE: Earphone = {
  unit: "dB/mW",
  sensitivity: 110,
  impedance: 16,
  sourceImpedance: 10,
  drive: 0.1,
  isolation: 20,
  stage: 105,
};

describe("time at a level", () => {
  it.each(NIOSH_TIMES)("NIOSH 98-126 at %d dBA", (level, seconds) =>
    expectNear(allowedTime(NIOSH, level), seconds, printed(1)),
  );

  it.each(OSHA_G16)("OSHA table G-16 at %d dBA", (level, hours, rounding) =>
    expectNear(allowedTime(OSHA, level) / 3600, hours, rounding + 1e-9),
  );

  it.each(OSHA_G16A)("OSHA table G-16a at %d dBA", (level, hours) =>
    expectNear(allowedTime(OSHA, level) / 3600, hours, printed(1)),
  );

  it("OSHA allows eight times NIOSH's time at 100 dBA", () =>
    expectNear(allowedTime(OSHA, 100) / allowedTime(NIOSH, 100), 8, 1e-12));

  it("is without end in silence", () => expect(allowedTime(NIOSH, -Infinity)).toBe(Infinity));
});

it.each(EU_2003_10.map((row, i) => [i, ...row] as const))(
  "Directive 2003/10/EC, row %d: %s",
  (at, name, daily, pascals, peak) => {
    const value = EU_VALUES[at];
    expect([value && EXPOSURE_VALUES[value.id], value?.daily, value?.pascals]).toEqual([
      name,
      daily,
      pascals,
    ]);
    expectNear(value?.peak ?? null, peak, printed(1));
  },
);

describe("level at the ear", () => {
  it.each(EARPHONES)(
    "%d dB/mW, %d Ω, %d V behind %d Ω",
    (sensitivity, impedance, drive, sourceImpedance, mW, level) => {
      const inMilliwatts = earphoneFigures({ ...EARPHONE, sensitivity, impedance, drive, sourceImpedance });
      expectNear(powerOf(inMilliwatts.level - sensitivity), mW, printed(5));
      expectNear(inMilliwatts.level, level, printed(3));
      const inVolts = earphoneFigures({
        ...EARPHONE,
        unit: "dB/V",
        sensitivity: perVolt(sensitivity, impedance),
        impedance,
        drive,
        sourceImpedance,
      });
      expectNear(inVolts.level, inMilliwatts.level, 1e-10);
    },
  );

  it.each(PER_VOLT)("dB/V over dB/mW at %d Ω", (impedance, offset) =>
    expectNear(perVolt(0, impedance), offset, printed(4)),
  );

  it("adds the leak from the stage: 105 behind 20 is 85, with 95 in the ear 95.414", () => {
    const { drive, impedance } = { drive: 1, impedance: 32 };
    const unit = "dB/V" as const;
    const ear = earphoneFigures({ ...EARPHONE, unit, sensitivity: 95, drive, impedance, sourceImpedance: 0 });
    expectNear(ear.level, 95, 1e-12);
    expectNear(ear.leak, 85, 1e-12);
    expectNear(ear.total, 95.414, printed(3));
    expectNear(ear.niosh.time, allowedTime(NIOSH, ear.total), 1e-9);
    expectNear(ear.niosh.shortest, ear.niosh.time / 2 ** (EARPHONE_ERROR / 3), 1e-6);
    expectNear(ear.niosh.longest, ear.niosh.time * 2 ** (EARPHONE_ERROR / 3), 1e-6);
    expectNear(ear.osha.shortest, ear.osha.time / 2, 1e-6);
  });

  it("is the leak alone without drive", () => {
    const ear = earphoneFigures({ ...EARPHONE, drive: 0 });
    expect(ear.level).toBe(-Infinity);
    expectNear(ear.total, 85, 1e-12);
  });
});
