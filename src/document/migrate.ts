import { reasonOf } from "../text/words";
import { inDeskTerms } from "./migrate-v2";
import { isFields, Refusal, show } from "./reader";
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

/**
 * Brings a setup from outside to the newest version, step by step; what was given stays as it is.
 * @throws Refusal when it is no setup, from a newer app, or a step fails
 */
export const migrate = (given: unknown, migrations: readonly Migration[] = MIGRATIONS): RawSetup => {
  const newest = migrations.length + 1;
  if (!isFields(given)) throw new Refusal(`This is not a setup of Hatside: it is ${show(given)}.`);
  const { format, version } = given;
  if (format !== FORMAT)
    throw new Refusal(`This is not a setup of Hatside: its format is ${show(format)}. Allowed: “${FORMAT}”.`);
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1)
    throw new Refusal(`version: ${show(version)} is not a version. Allowed: 1 to ${newest}.`);
  if (version > newest) {
    throw new Refusal(
      `This setup is from a newer Hatside (its version is ${version}, this app reads up to ${newest}). Update the app, then open it again.`,
    );
  }
  if (version === newest) return given;
  return migrations
    .slice(version - 1)
    .reduce((setup, step, at) => next(setup, version + at, step), JSON.parse(JSON.stringify(given)));
};

const next = (setup: RawSetup, version: number, step: Migration): RawSetup => {
  try {
    return { ...step(setup), format: FORMAT, version: version + 1 };
  } catch (error) {
    throw new Refusal(
      `This setup of version ${version} could not be brought to version ${version + 1}: ${reasonOf(error)}.`,
    );
  }
};
