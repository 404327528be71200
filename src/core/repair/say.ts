import { quoted } from "../lib/direction";
import { isSwapped } from "../mix/pair-order";
import type { Bus, Id, Setup } from "../model/setup";
import { busName, channelName, listenerName } from "../names";
import { formatPan } from "../pan/notation";
import { capitalised, feedName, formatList } from "../words";
import type { Own } from "./parts";
import type { Repair } from "./repairs";
import type { PanMove, Step } from "./steps";

type Names = Pick<Setup, "channels" | "buses" | "listeners" | "desk">;

const busTitle = (setup: Names, id: Id): string => feedName(setup, "bus", id);
const nameOfListener = (setup: Names, id: Id): string =>
  listenerName(setup.listeners.find((l) => l.id === id));

const panSaid = (setup: Names, { from, to, followed }: PanMove): string => {
  const was = `${formatPan(from, setup.desk)}${followed ? ", following FOH" : ""}`;
  return `${formatPan(to, setup.desk)} (was ${was})`;
};

/**
 * One step as a sentence, pans as the console shows them.
 * @param setup as it was before the recommendation
 */
export const sayStep = (setup: Names, step: Step): string => {
  switch (step.step) {
    case "swap": {
      const name = busTitle(setup, step.bus);
      return step.inputs
        ? `Patch the left side of ${name} into input ${step.inputs[0] + 1} and the right side into input ${step.inputs[1] + 1}.`
        : `Plan the sides of ${name} the other way round: not both have an input yet.`;
    }
    case "fold":
      return `Fold ${busTitle(setup, step.bus)} to mono.`;
    case "pan":
      return `Set ${channelName(setup, step.channel)} in ${busTitle(setup, step.bus)} to ${panSaid(setup, step)}.`;
    case "channel pan":
      return `Set the channel pan of ${channelName(setup, step.channel)} to ${panSaid(setup, step)}.`;
    case "flip": {
      const name = nameOfListener(setup, step.listener);
      return step.flipped
        ? `Flip left and right at the mixer of ${name}.`
        : `Take the flip out at the mixer of ${name}.`;
    }
    case "own pair": {
      const [left, right] = step.inputs;
      const pans = step.pans.map((p) => `${channelName(setup, p.channel)} to ${panSaid(setup, p)}`);
      const set = pans.length === 0 ? "" : ` In it set ${formatList(pans)}.`;
      return `Copy ${busTitle(setup, step.of)} to a new pair, ${quoted(step.copy.name)}, and patch its left side into input ${left + 1} and its right side into input ${right + 1} for ${nameOfListener(setup, step.listener)} alone.${set}`;
    }
  }
};

const own = (names: string, many: boolean, kind: string): string =>
  `give ${names} ${many ? `${kind}pairs` : `a ${kind}pair`} of their own`;

/** What is done for listeners alone; `it` is the bus, by name where it was not named before. */
const CHOICES: readonly [Own["choice"], (names: string, many: boolean, it: string) => string][] = [
  ["flip", (names, many, it) => `flip ${it} at ${many ? "the mixers" : "the mixer"} of ${names}`],
  ["own reversed", (names, many) => own(names, many, "reversed ")],
  ["own panned", (names, many) => own(names, many, "")],
];

/**
 * A recommendation in one line, such as "Patch Drums in reverse and flip it at the mixer of Ines".
 * @param setup as it was before the recommendation
 * @param sum as it was before the recommendation
 */
export const sayRepair = (
  setup: Setup,
  bus: Bus,
  { parts, steps }: Pick<Repair, "parts" | "steps">,
): string => {
  const { pair } = parts;
  const name = busName(bus);
  const does: string[] = [];
  const pans = steps.filter((s) => s.step === "pan" || s.step === "channel pan");
  const [only] = pans;
  const channels = only && pans.length === 1 ? channelName(setup, only.channel) : `${pans.length} channels`;
  if (pair.swap) does.push(`patch ${name} ${isSwapped(setup, bus) ? "straight" : "in reverse"}`);
  if (pair.fold) does.push(`fold ${name} to mono`);
  if (pair.pan === "bus") does.push(`re-pan ${channels} in ${pair.swap ? "it" : name}`);
  if (pair.pan === "foh") does.push(`move the channel pan of ${channels}`);
  const it = does.length > 0 && pair.pan !== "foh" ? "it" : name;
  for (const [choice, say] of CHOICES) {
    const who = parts.own.filter((o) => o.choice === choice).map((o) => nameOfListener(setup, o.listener));
    if (who.length > 0) does.push(say(formatList(who), who.length > 1, it));
  }
  return does.length === 0 ? `Leave ${name} as it is` : capitalised(formatList(does));
};
