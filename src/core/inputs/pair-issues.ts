import type { MonitorInput, Setup } from "../model/setup";
import { type Edit, type Issue, issue } from "./issue";
import { exchange, intoNeighbours } from "./pair-fix";
import {
  firstOfSide,
  inputsAbout,
  type PatchedThing,
  patchedThings,
  repeatsOf,
  sidesSwapped,
} from "./patched";

const oneSide = (setup: Setup, thing: PatchedThing, missing: "left" | "right"): Issue[] => {
  const { inputs, inputCount } = setup.monitor;
  const at = firstOfSide(setup, thing, missing === "left" ? "right" : "left");
  const has = inputs[at] as MonitorInput;
  // In reverse order the left side belongs behind the right one.
  const beside = (missing === "right") !== thing.swapped ? at + 1 : at - 1;
  const isFree = beside >= 0 && beside < inputCount && !inputs[beside];
  const feed = has.feed.kind === "bus" ? { ...has.feed, side: missing } : { ...has.feed, side: missing };
  // Its own port is for the user to say.
  const mate: MonitorInput = { ...has, port: null, feed };
  const fix: Edit[] = isFree
    ? [{ edit: "input", index: beside, to: mate }]
    : intoNeighbours(setup, thing, [at], missing === "right" ? [has, mate] : [mate, has]);
  return [issue("only one side", "fault", inputsAbout(thing), { missing }, fix)];
};

const order = (setup: Setup, thing: PatchedThing, left: number, right: number): Issue[] => {
  const swapped = sidesSwapped(setup, thing);
  if (swapped === thing.swapped) return [];
  const inputs = [Math.min(left, right), Math.max(left, right)];
  const code = swapped ? "swapped" : "normal";
  return [issue(code, "fault", inputsAbout(thing, inputs), null, exchange(setup, left, right))];
};

const neighbours = (setup: Setup, thing: PatchedThing, left: number, right: number): Issue[] => {
  const inputs = [Math.min(left, right), Math.max(left, right)];
  const [first = 0] = inputs;
  if (Math.abs(left - right) > 1) {
    return [
      issue(
        "split",
        "warn",
        inputsAbout(thing, inputs),
        null,
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
  return [issue("odd and even", "note", inputsAbout(thing, inputs), null)];
};

const checked = (setup: Setup, thing: PatchedThing): Issue[] => {
  const left = firstOfSide(setup, thing, "left");
  const right = firstOfSide(setup, thing, "right");
  if (left < 0 || right < 0) {
    const whole = firstOfSide(setup, thing, "both") >= 0;
    return whole ? [] : oneSide(setup, thing, left < 0 ? "left" : "right");
  }
  return [...order(setup, thing, left, right), ...neighbours(setup, thing, left, right)];
};

const spareSide = (setup: Setup, thing: PatchedThing): Issue[] => {
  const spare = repeatsOf(setup, thing).map((r) => r.index);
  if (spare.length === 0) return [];
  const fix = spare.map((index): Edit => ({ edit: "input", index, to: null }));
  return [issue("spare side", "note", inputsAbout(thing), { spare }, fix)];
};

/** Issues of stereo buses and stereo channels: apart, swapped, one side only. */
export const pairIssues = (setup: Setup): Issue[] =>
  patchedThings(setup).flatMap((thing) => {
    if (!thing.stereo) return [];
    return thing.folded ? spareSide(setup, thing) : checked(setup, thing);
  });
