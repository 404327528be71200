import type { MonitorInput, Setup } from "../model/setup";
import { formatInputs } from "../words";
import { type Edit, issue, type PatchIssue } from "./issue";
import { exchange, intoNeighbours } from "./pair-fix";
import {
  firstOfSide,
  inputsAbout,
  type PatchedThing,
  patchedThings,
  repeatsOf,
  sidesSwapped,
} from "./patched";

const oneSide = (setup: Setup, thing: PatchedThing, missing: "left" | "right"): PatchIssue[] => {
  const { inputs, inputCount } = setup.monitor;
  const at = firstOfSide(setup, thing, missing === "left" ? "right" : "left");
  const has = inputs[at] as MonitorInput;
  // In reverse order the left side belongs behind the right one.
  const beside = (missing === "right") !== thing.swapped ? at + 1 : at - 1;
  const isFree = beside >= 0 && beside < inputCount && !inputs[beside];
  const feed = has.feed.kind === "bus" ? { ...has.feed, side: missing } : { ...has.feed, channel: missing };
  const mate: MonitorInput = { ...has, feed };
  const fix: Edit[] = isFree
    ? [{ edit: "input", index: beside, to: mate }]
    : intoNeighbours(setup, thing, [at], missing === "right" ? [has, mate] : [mate, has]);
  const what = thing.kind === "bus" ? "side" : "channel";
  const word = missing === "left" ? "right" : "left";
  return [
    issue(
      "only one side",
      "fault",
      inputsAbout(thing),
      `Only the ${word} ${what} of ${thing.name} is patched: what is on the other side is missing.`,
      `Patch the ${missing} ${what} beside it, or make ${thing.name} mono.`,
      fix,
    ),
  ];
};

const order = (setup: Setup, thing: PatchedThing, left: number, right: number): PatchIssue[] => {
  const swapped = sidesSwapped(setup, thing);
  if (swapped === thing.swapped) return [];
  const inputs = [Math.min(left, right), Math.max(left, right)];
  const bus = thing.kind === "bus";
  return [
    issue(
      swapped ? "swapped" : "normal",
      "fault",
      inputsAbout(thing, inputs),
      swapped
        ? `${thing.name} is patched in reverse order in ${formatInputs(inputs)}${bus ? ", and nothing says that it is meant" : ""}.`
        : `${thing.name} is meant to be patched in reverse order, but lies straight in ${formatInputs(inputs)}.`,
      `Exchange ${formatInputs(inputs)}${bus ? `, or say that ${thing.name} is ${swapped ? "" : "not "}meant to be swapped` : ""}.`,
      exchange(setup, left, right),
    ),
  ];
};

const neighbours = (setup: Setup, thing: PatchedThing, left: number, right: number): PatchIssue[] => {
  const inputs = [Math.min(left, right), Math.max(left, right)];
  const [first = 0] = inputs;
  if (Math.abs(left - right) > 1) {
    return [
      issue(
        "split",
        "warn",
        inputsAbout(thing, inputs),
        `${thing.name} lies in ${formatInputs(inputs)}, which are not neighbours: a mixer that links neighbours can’t make a pair of it.`,
        "Put both sides into neighbouring inputs.",
        intoNeighbours(
          setup,
          thing,
          [left, right],
          [setup.monitor.inputs[left] as MonitorInput, setup.monitor.inputs[right] as MonitorInput],
        ),
      ),
    ];
  }
  // Common practice, no source: personal mixers that link fixed pairs link 1 with 2, 3 with 4 and so on.
  if (first % 2 === 0) return [];
  return [
    issue(
      "odd and even",
      "note",
      inputsAbout(thing, inputs),
      `${thing.name} lies in ${formatInputs(inputs)}: a mixer that only links 1 and 2, 3 and 4 and so on can’t make a pair of it.`,
      "If yours is one of them, begin the pair in an odd input.",
    ),
  ];
};

const checked = (setup: Setup, thing: PatchedThing): PatchIssue[] => {
  const left = firstOfSide(setup, thing, "left");
  const right = firstOfSide(setup, thing, "right");
  if (left < 0 || right < 0) {
    const whole = firstOfSide(setup, thing, "both") >= 0;
    return whole ? [] : oneSide(setup, thing, left < 0 ? "left" : "right");
  }
  return [...order(setup, thing, left, right), ...neighbours(setup, thing, left, right)];
};

const spareSide = (setup: Setup, thing: PatchedThing): PatchIssue[] => {
  const spare = repeatsOf(setup, thing).map((r) => r.index);
  if (spare.length === 0) return [];
  return [
    issue(
      "spare side",
      "note",
      inputsAbout(thing),
      `${thing.name} is folded to mono: ${formatInputs(thing.inputs)} carry the same.`,
      `One input is enough: free ${formatInputs(spare)}.`,
      spare.map((index) => ({ edit: "input", index, to: null })),
    ),
  ];
};

/** What is to be said of pairs and of channels with two channels: apart, the wrong way round, one side only. */
export const pairIssues = (setup: Setup): PatchIssue[] =>
  patchedThings(setup).flatMap((thing) => {
    if (!thing.stereo) return [];
    return thing.folded ? spareSide(setup, thing) : checked(setup, thing);
  });
