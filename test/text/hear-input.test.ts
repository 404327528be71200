import { expect, it } from "vitest";
import type { InputEnd, InputProblem } from "../../src/core/hear/input";
import type { InputFault } from "../../src/core/hear/input-fault";
import { exampleSetup } from "../../src/document/example";
import { checkNames } from "../../src/text/check";
import { describeHeardFault } from "../../src/text/hear-faults";
import {
  describeInputFault,
  describeProcessing,
  describeRefusal,
  describeTrouble,
  formatDevice,
  formatRate,
  formatRightLessLeft,
  formatSideDifference,
} from "../../src/text/hear-input";

const TROUBLES: readonly (InputProblem | InputEnd)[] = [
  "unable",
  "insecure",
  "refused",
  "none",
  "busy",
  "failed",
  "unplugged",
  "hidden",
];
const FAULTS: readonly InputFault[] = ["one-channel", "identical", "muted", "silent", "overload"];

const processing = (echoCancellation: boolean | null, autoGainControl: boolean | null) =>
  describeProcessing({ processing: { echoCancellation, noiseSuppression: false, autoGainControl } });

it("says why there is no input, and what to do", () => {
  expect(TROUBLES.map(describeTrouble)).toMatchSnapshot();
});

it("says what is wrong with what an input brings, and what to do", () => {
  expect(FAULTS.map(describeInputFault)).toMatchSnapshot();
});

it("says what the system does to the signal", () => {
  expect([
    processing(false, false),
    processing(true, false),
    processing(true, true),
    processing(false, null),
  ]).toMatchSnapshot();
});

it("says of hits why they do not count, and how the sides differ", () => {
  expect((["double", "clipped", "early"] as const).map(describeRefusal)).toMatchSnapshot();
  expect([6.04, -0.02, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY].map(formatRightLessLeft)).toEqual([
    "+6.0",
    "0.0",
    "R only",
    "L only",
  ]);
  expect([6.04, Number.NEGATIVE_INFINITY].map(formatSideDifference)).toEqual(["R − L +6.0 dB", "L only"]);
});

it("names inputs and their rate", () => {
  expect([formatDevice({ name: "Interface" }, 0), formatDevice({ name: "" }, 1)]).toEqual([
    "Interface",
    "Input 2",
  ]);
  expect([formatRate({ rate: 44_100 }), formatRate({ rate: 48_000 })]).toEqual(["44.1 kHz", "48 kHz"]);
});

it("says what was measured to be wrong, and what to do", () => {
  const setup = exampleSetup();
  const listener = setup.listeners.find(({ name }) => name === "Mara, drums");
  if (!listener) throw new Error("nobody is called Mara");
  const hat = setup.channels.find(({ name }) => name === "Hat")?.id ?? "";
  const names = checkNames(setup, listener);
  const say = (fault: "side-trim" | "wrong-pan" | "wrong-side", of: { pan?: number; trim?: number }) =>
    describeHeardFault(setup, listener, names, {
      fault,
      channel: hat,
      pan: of.pan ?? null,
      trim: of.trim ?? null,
    });
  expect([
    say("side-trim", { trim: -3.24 }),
    say("side-trim", { trim: 2 }),
    say("wrong-pan", { pan: 0.1 }),
    say("wrong-side", {}),
  ]).toMatchSnapshot();
});
