import fc from "fast-check";
import type {
  AllocationChannel,
  AllocationMusician,
  AllocationProblem,
  AllocationRule,
  BusPin,
  Pin,
} from "../../../src/core/allocate/model";
import type { AllocationKind } from "../../../src/core/allocate/rules";

/** A channel of which only what matters is said. */
export const channel = (
  id: string,
  kind: AllocationKind,
  more: Partial<AllocationChannel> = {},
): AllocationChannel => ({
  id,
  name: id,
  kind,
  width: 1,
  keepsSides: false,
  number: null,
  section: null,
  instrument: null,
  player: null,
  wantedBy: [],
  currentInputs: [],
  current: null,
  rule: {},
  pin: null,
  ...more,
});

export const musician = (id: string, mono = false): AllocationMusician => ({ id, name: id, mono });

export const problem = (
  inputs: number,
  channels: readonly AllocationChannel[],
  more: Partial<AllocationProblem> = {},
): AllocationProblem => ({
  inputs,
  channels,
  reserved: [],
  musicians: [musician("Ada"), musician("Bo")],
  busPins: [],
  swapped: [],
  ...more,
});

/** One kind of each way to behave: every family but those that only repeat another one’s behaviour. */
export const SMALL_KINDS = [
  "kick",
  "drum",
  "percussion",
  "bass",
  "guitar",
  "keys",
  "horn",
  "lead-vocal",
  "vocal",
  "playback",
  "click",
  "talkback",
  "speech",
  "audience",
] as const satisfies readonly AllocationKind[];

const aRule: fc.Arbitrary<Partial<AllocationRule>> = fc.record(
  {
    own: fc.constantFrom("must", "prefer", "if-left", "no-matter", "no"),
    stereo: fc.constantFrom("must", "prefer", "no"),
    panned: fc.boolean(),
    shares: fc.constantFrom("nobody", "family", "anyone"),
    reach: fc.constantFrom("all", "asked"),
    mayLeaveOut: fc.boolean(),
    maySwap: fc.boolean(),
  },
  { requiredKeys: [] },
);

const aPin = (inputs: number): fc.Arbitrary<Pin> =>
  fc.oneof(
    fc.record({
      as: fc.constant("own" as const),
      width: fc.constantFrom(1 as const, 2 as const),
      input: fc.option(fc.integer({ min: 1, max: inputs + 1 })),
    }),
    fc.constantFrom<Pin>({ as: "shared" }, { as: "fold-back" }, { as: "out" }),
  );

const seldom = <T>(of: fc.Arbitrary<T>, otherwise: T, weight = 4): fc.Arbitrary<T> =>
  fc.oneof({ weight, arbitrary: fc.constant(otherwise) }, { weight: 1, arbitrary: of });

const BUSES = [
  "drums",
  "drums/A",
  "drums//X",
  "guitars",
  "keys",
  "vocals",
  "vocals/A",
  "fold-back",
  "horns//X",
];

/**
 * A problem of a few channels in which everything that can be said is said now and then.
 * @param kinds what kinds there are: few, so that families have more than one member
 */
export const smallProblem = (
  most: number,
  { pinned = true, kinds = SMALL_KINDS }: { pinned?: boolean; kinds?: readonly AllocationKind[] } = {},
): fc.Arbitrary<AllocationProblem> =>
  fc
    .record({
      inputs: fc.integer({ min: 0, max: 7 }),
      some: fc.shuffledSubarray([...kinds], { minLength: 1, maxLength: 3 }),
    })
    .chain(({ inputs, some }) => {
      const anInput = fc.integer({ min: 1, max: Math.max(inputs, 1) });
      const aChannel = fc.record({
        kind: fc.constantFrom(...some),
        width: fc.constantFrom(1 as const, 2 as const),
        keepsSides: seldom(fc.boolean(), false),
        number: fc.option(fc.integer({ min: 1, max: 4 })),
        section: seldom<string | null>(fc.constantFrom("A", "B"), null, 2),
        instrument: seldom<string | null>(fc.constantFrom("X", "Y"), null, 2),
        player: fc.constantFrom(null, "Ada"),
        wantedBy: fc.subarray(["Ada", "Bo"]),
        current: fc.oneof(
          fc.constant(null),
          fc.record({ as: fc.constant("own" as const), width: fc.constantFrom(1 as const, 2 as const) }),
          fc.record({
            as: fc.constant("bus" as const),
            bus: fc.constantFrom(...BUSES),
            width: fc.constantFrom(1 as const, 2 as const),
          }),
        ),
        currentInputs: fc.oneof(fc.constant([]), fc.uniqueArray(anInput, { maxLength: 2 })),
        rule: seldom(aRule, {}, 1),
        pin: pinned ? seldom<Pin | null>(aPin(inputs), null) : fc.constant(null),
      });
      const aBusPin: fc.Arbitrary<BusPin> = fc.record({
        bus: fc.constantFrom(...BUSES),
        width: fc.constantFrom(1 as const, 2 as const),
        input: fc.option(anInput),
      });
      return fc.record({
        inputs: fc.constant(inputs),
        reserved: seldom(fc.uniqueArray(anInput, { maxLength: 2 }), []),
        channels: fc
          .array(aChannel, { minLength: 1, maxLength: most })
          .map((list) => list.map((c, i) => channel(`c${i}`, c.kind, c))),
        musicians: fc.constantFrom(
          [],
          [musician("Ada")],
          [musician("Ada"), musician("Bo", true)],
          [musician("Ada", true), musician("Bo", true)],
        ),
        busPins: pinned
          ? seldom<BusPin[]>(fc.uniqueArray(aBusPin, { maxLength: 1, selector: (p) => p.bus }), [], 6)
          : fc.constant([]),
        swapped: fc.subarray(BUSES, { maxLength: 3 }),
      });
    });
