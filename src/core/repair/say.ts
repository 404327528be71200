import { called, sourceCalled, sumCalled } from "../called";
import { quoted } from "../direction";
import { printPan } from "../pannotation";
import { isReversed } from "../patched";
import type { Id, Setup, Sum } from "../setup";
import { listed, sentence, thingCalled } from "../words";
import type { Own } from "./parts";
import type { Repair } from "./repairs";
import type { PanMove, Step } from "./steps";

type Names = Pick<Setup, "sources" | "sums" | "listeners" | "console">;

const sumName = (setup: Names, id: Id): string => thingCalled(setup, "sum", id);
const listenerName = (setup: Names, id: Id): string => called(setup.listeners.find((l) => l.id === id));

const panSaid = (setup: Names, { from, to, followed }: PanMove): string => {
  const was = `${printPan(from, setup.console)}${followed ? ", following the house" : ""}`;
  return `${printPan(to, setup.console)} (was ${was})`;
};

/**
 * One step as a sentence, pans as the console shows them.
 * @param setup as it was before the repair
 */
export const sayStep = (setup: Names, step: Step): string => {
  switch (step.step) {
    case "swap": {
      const name = sumName(setup, step.sum);
      return step.slots
        ? `Patch the left leg of ${name} into slot ${step.slots[0] + 1} and the right leg into slot ${step.slots[1] + 1}.`
        : `Plan the legs of ${name} the other way round: not both have a slot yet.`;
    }
    case "fold":
      return `Fold ${sumName(setup, step.sum)} to mono.`;
    case "pan":
      return `Set ${sourceCalled(setup, step.source)} in ${sumName(setup, step.sum)} to ${panSaid(setup, step)}.`;
    case "house pan":
      return `Set the house pan of ${sourceCalled(setup, step.source)} to ${panSaid(setup, step)}.`;
    case "flip": {
      const name = listenerName(setup, step.listener);
      return step.flipped
        ? `Flip left and right at the mixer of ${name}.`
        : `Take the flip out at the mixer of ${name}.`;
    }
    case "own pair": {
      const [left, right] = step.slots;
      const pans = step.pans.map((p) => `${sourceCalled(setup, p.source)} to ${panSaid(setup, p)}`);
      const set = pans.length === 0 ? "" : ` In it set ${listed(pans)}.`;
      return `Copy ${sumName(setup, step.of)} to a new pair, ${quoted(step.copy.name)}, and patch its left leg into slot ${left + 1} and its right leg into slot ${right + 1} for ${listenerName(setup, step.listener)} alone.${set}`;
    }
  }
};

const own = (names: string, many: boolean, kind: string): string =>
  `give ${names} ${many ? `${kind}pairs` : `a ${kind}pair`} of their own`;

/** What is done for listeners alone; `it` is the sum, by name where it was not named before. */
const CHOICES: readonly [Own["choice"], (names: string, many: boolean, it: string) => string][] = [
  ["flip", (names, many, it) => `flip ${it} at ${many ? "the mixers" : "the mixer"} of ${names}`],
  ["own reversed", (names, many) => own(names, many, "reversed ")],
  ["own panned", (names, many) => own(names, many, "")],
];

/**
 * A repair in one line, such as "Patch Drums in reverse and flip it at the mixer of Ines".
 * @param setup as it was before the repair
 * @param sum as it was before the repair
 */
export const sayRepair = (
  setup: Setup,
  sum: Sum,
  { parts, steps }: Pick<Repair, "parts" | "steps">,
): string => {
  const { pair } = parts;
  const name = sumCalled(sum);
  const does: string[] = [];
  const pans = steps.filter((s) => s.step === "pan" || s.step === "house pan");
  const [only] = pans;
  const sources = only && pans.length === 1 ? sourceCalled(setup, only.source) : `${pans.length} sources`;
  if (pair.swap) does.push(`patch ${name} ${isReversed(setup, sum) ? "straight" : "in reverse"}`);
  if (pair.fold) does.push(`fold ${name} to mono`);
  if (pair.pan === "sum") does.push(`re-pan ${sources} in ${pair.swap ? "it" : name}`);
  if (pair.pan === "house") does.push(`move the house pan of ${sources}`);
  const it = does.length > 0 && pair.pan !== "house" ? "it" : name;
  for (const [choice, say] of CHOICES) {
    const who = parts.own.filter((o) => o.choice === choice).map((o) => listenerName(setup, o.listener));
    if (who.length > 0) does.push(say(listed(who), who.length > 1, it));
  }
  return does.length === 0 ? `Leave ${name} as it is` : sentence(listed(does));
};
