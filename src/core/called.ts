import { directed } from "./direction";
import type { Id, Listener, Setup } from "./setup";

/** Something that people name, or forget to. */
interface Named {
  readonly name: string;
}

/** Name of a thing of some kind: "Unnamed sum" where it has none. */
export const nameOf = (thing: Named | undefined, kind: string): string =>
  directed(thing?.name ?? "") || `Unnamed ${kind}`;

/** Name of a source, for a sentence. */
export const sourceCalled = (setup: Pick<Setup, "sources">, id: Id): string =>
  nameOf(
    setup.sources.find((s) => s.id === id),
    "source",
  );

/** Name of a sum, for a sentence. */
export const sumCalled = (sum: Named | undefined): string => nameOf(sum, "sum");

/** Names that are a word for the part played, not a name. */
const PARTS = /^(drummer|audience|singer|band|house)$/i;

/**
 * A listener in the middle of a sentence: "Mara" for "Mara, drums", "the drummer" for "Drummer".
 */
export const called = (listener: Pick<Listener, "name"> | undefined): string => {
  const name = directed((listener?.name.split(",")[0] ?? "").trim());
  if (name === "") return "an unnamed listener";
  return PARTS.test(name) ? `the ${name.toLowerCase()}` : name;
};
