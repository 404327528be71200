import fc from "fast-check";
import type { Action, Answer, Earphone, Id, MeasuredChannel } from "../../src/core/model/setup";
import type { Db } from "../../src/core/model/units";
import { RANGES, type Range } from "../../src/document/limits";

/** Anything a field takes, its ends often; no −0, which a file does not keep. */
export const within = ({ min, max }: Range): fc.Arbitrary<number> =>
  fc.oneof(fc.constantFrom(min, max), fc.double({ min, max, noNaN: true })).map((n) => n || 0);

/** Anything that can be said of a hit. */
export const answers = fc.constantFrom<Answer>("left", "middle", "right", "nothing", "unclear");

/** Anything that can be done before a hit. */
export const actions = fc.constantFrom<Action>(
  "mute-overheads",
  "mono",
  "first-input",
  "balance-left",
  "balance-right",
);

/** What each field of the data for the ear may be. */
export const EARPHONE: { readonly [K in keyof Earphone]: fc.Arbitrary<Earphone[K]> } = {
  unit: fc.constantFrom("dB/mW", "dB/V"),
  sensitivity: within(RANGES.sensitivity),
  impedance: within(RANGES.impedance),
  sourceImpedance: within(RANGES.sourceImpedance),
  drive: within(RANGES.drive),
  isolation: within(RANGES.isolation),
  stage: within(RANGES.stage),
};

/** Figures of a channel from a recording, whatever they have to do with each other. */
export const measuredOf = (
  channel: fc.Arbitrary<Id>,
  level: fc.Arbitrary<Db>,
): fc.Arbitrary<MeasuredChannel> =>
  fc.record({
    channel,
    rms: level,
    gatedRms: level,
    peak: level,
    truePeak: level,
    fast: level,
    slow: level,
    activity: fc.option(within(RANGES.share)),
  });
