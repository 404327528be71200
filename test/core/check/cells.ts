import { type Check, checkOf } from "../../../src/core/check/check";
import type { Hand, LawId, Listener, Setup } from "../../../src/core/model/setup";
import { MICROPHONE_COUNTS, templateSetup } from "../../../src/document/templates";

/** One case of the simulation. */
export interface Cell {
  readonly law: LawId;
  readonly kit: string;
  readonly setup: Setup;
  readonly check: Check;
}

/** The laws on which the engine was tuned, and those on which it was not. */
export const TUNED: readonly LawId[] = ["sine", "root", "linear"];
export const UNTUNED: readonly LawId[] = ["mean45", "sine45", "cosine2"];
const HANDS: readonly Hand[] = ["right", "left", "open"];

const cell = (kit: string, law: LawId, setup: Setup): Cell => {
  const drummer = setup.listeners.find((l) => l.kind === "drummer") as Listener;
  return { kit, law, setup, check: checkOf({ ...setup, desk: { ...setup.desk, law } }, drummer) };
};

/** Every template of the app, for every hand, as it begins. */
export const templateCells = (laws: readonly LawId[]): Cell[] =>
  laws.flatMap((law) =>
    HANDS.flatMap((hand) =>
      MICROPHONE_COUNTS.map((count) =>
        cell(`${count} mics, ${hand}-handed`, law, templateSetup(count, hand)),
      ),
    ),
  );

/** Some of the pieces of a kit, with their microphones; the overheads stay. */
const only = (setup: Setup, stays: (name: string) => boolean): Setup => {
  const pieces = setup.kit.pieces.filter((p) => p.kind === "overhead" || stays(p.name));
  const channels = setup.channels.filter((s) => pieces.some((p) => p.id === s.piece));
  const buses = setup.buses.map((bus) => ({
    ...bus,
    sends: bus.sends.filter((send) => channels.some((s) => s.id === send.channel)),
  }));
  return { ...setup, kit: { ...setup.kit, pieces }, channels, buses };
};

/** Kits that are no template: one without a floor tom, one of exactly four pieces. */
export const smallKits = (laws: readonly LawId[]): Cell[] =>
  laws.flatMap((law) => [
    cell(
      "no floor tom, 3 mics",
      law,
      only(templateSetup(3, "right"), (name) => !/floor/i.test(name)),
    ),
    cell(
      "no floor tom, 10 mics",
      law,
      only(templateSetup(10, "right"), (name) => !/floor/i.test(name)),
    ),
    cell(
      "four pieces",
      law,
      only(templateSetup(10, "right"), (name) => ["Kick", "Snare", "Hat", "Ride"].includes(name)),
    ),
  ]);

/** Templates with other pans than the engine was tuned on: each side as it is, how far by chance. */
export const pannedByChance = (law: LawId, random: () => number): Cell[] =>
  MICROPHONE_COUNTS.map((count) => {
    const setup = templateSetup(count, "right");
    const channels = setup.channels.map((s) => ({ ...s, pan: Math.sign(s.pan) * (0.2 + 0.8 * random()) }));
    return cell(`${count} mics, pans by chance`, law, { ...setup, channels });
  });
