import { isolated } from "../core/lib/direction";
import type { Id, LawReference, Listener, Setup } from "../core/model/setup";
import type { Side } from "../core/model/units";

/** Something that people name, or forget to. */
interface Named {
  readonly name: string;
}

/** Name of a thing of some kind: "Unnamed bus" where it has none. */
export const nameOr = (thing: Named | undefined, kind: string): string =>
  isolated(thing?.name ?? "") || `Unnamed ${kind}`;

/** Name of a channel, for a sentence. */
export const channelName = (setup: Pick<Setup, "channels">, id: Id): string =>
  nameOr(
    setup.channels.find((s) => s.id === id),
    "channel",
  );

/** Name of a bus, for a sentence. */
export const busName = (bus: Named | undefined): string => nameOr(bus, "bus");

/** Names that are a word for the part played, not a name. */
const PARTS = /^(drummer|audience|singer|band|house)$/i;

/**
 * A listener in the middle of a sentence: "Mara" for "Mara, drums", "the drummer" for "Drummer".
 */
export const listenerName = (listener: Pick<Listener, "name"> | undefined): string => {
  const name = isolated((listener?.name.split(",")[0] ?? "").trim());
  if (name === "") return "an unnamed listener";
  return PARTS.test(name) ? `the ${name.toLowerCase()}` : name;
};

/** Whose mixer it is: "Mara’s mixer". */
export const mixerName = (listener: Pick<Listener, "name"> | undefined): string =>
  `${listenerName(listener)}’s mixer`;

/** Sides as they stand behind a name: "Drum bus L". */
export const SIDE_LETTERS: { readonly [side in Side]: string } = { left: "L", right: "R" };

/** One side of a bus or channel: "Drum bus L"; a mono bus has no letter. */
export const sideName = (thing: Named & { readonly stereo: boolean }, side: Side): string =>
  thing.stereo ? `${nameOr(thing, "bus")} ${SIDE_LETTERS[side]}` : nameOr(thing, "bus");

/** Numbers at the desk as they stand before a name: "12", "13–14"; "" where none is entered. */
export const formatDeskNumbers = (numbers: readonly number[]): string => numbers.join("–");

/** A channel or bus by number and name: "Ch 12 Bass", "Bus 5–6 Drums"; the name alone where no number is entered. */
export const numberedName = (word: "Ch" | "Bus", numbers: readonly number[], name: string): string =>
  numbers.length === 0 ? name : `${word} ${formatDeskNumbers(numbers)} ${name}`;

/** Where on the pan a law passes a channel unchanged: "unity hard-panned", "unity at centre". */
export const UNITY_NAMES: { readonly [reference in LawReference]: string } = {
  sides: "hard-panned",
  centre: "at centre",
};
