import type { FileWord } from "../text/reading";
import { inDeskTerms } from "./migrate-v2";
import { glimpse, isFields, messageOf, Refusal } from "./reader";
import { FORMAT } from "./schema";

/** The fields of a setup of some version, still unchecked. */
export type RawSetup = { readonly [field: string]: unknown };

/** Turns a setup of one version into the next; may change what it is given, which is a copy. Throws when it cannot. */
export type Migration = (setup: RawSetup) => RawSetup;

/** Every migration there has been: number n − 1 turns version n into n + 1. Never changed once shipped, only added to. */
export const MIGRATIONS: readonly Migration[] = [
  // A repair may be kept from free slots: so far it took them.
  ({ wishes, ...rest }) => ({
    ...rest,
    wishes: isFields(wishes) ? { ...wishes, slotsFixed: false } : wishes,
  }),
  inDeskTerms,
];

/** What a file of ours says that it is, what it is called in a sentence, and in which versions it is read. */
export interface FileKind {
  readonly format: string;
  readonly what: FileWord;
  readonly oldest: number;
  readonly newest: number;
}

/**
 * A file of some kind and its version; nothing else of it is looked at.
 * @throws Refusal when it is something else, or from a newer app
 */
export const ofKind = (
  given: unknown,
  kind: FileKind,
): { readonly raw: RawSetup; readonly version: number } => {
  const { format, what, oldest, newest } = kind;
  if (!isFields(given)) throw new Refusal({ code: "not ours", what, given: glimpse(given) });
  const { version } = given;
  if (given.format !== format)
    throw new Refusal({ code: "other format", what, given: glimpse(given.format), format });
  if (typeof version !== "number" || !Number.isInteger(version) || version < oldest)
    throw new Refusal({ code: "no version", given: glimpse(version), oldest, newest });
  if (version > newest) throw new Refusal({ code: "newer", what, version, newest });
  return { raw: given, version };
};

/**
 * Brings a setup from outside to the newest version, step by step; what was given stays as it is.
 * @throws Refusal when it is no setup, from a newer app, or a step fails
 */
export const migrate = (given: unknown, migrations: readonly Migration[] = MIGRATIONS): RawSetup => {
  const newest = migrations.length + 1;
  const { raw, version } = ofKind(given, { format: FORMAT, what: "setup", oldest: 1, newest });
  if (version === newest) return raw;
  return migrations
    .slice(version - 1)
    .reduce((setup, step, at) => next(setup, version + at, step), JSON.parse(JSON.stringify(raw)));
};

const next = (setup: RawSetup, version: number, step: Migration): RawSetup => {
  try {
    return { ...step(setup), format: FORMAT, version: version + 1 };
  } catch (error) {
    throw new Refusal({ code: "not migrated", version, reason: messageOf(error) });
  }
};
