import type { Desk } from "../core/model/setup";
import { deskFields } from "./fields";
import { type FileKind, MIGRATIONS, type Migration, migrate, ofKind } from "./migrate";
import { type Read, type ReadSetup, readNoting, readSetup, readText } from "./read-setup";
import { isFields } from "./reader";
import { FORMAT, type SetupFile, VERSION } from "./schema";

/** Names the format of a desk kept by itself. */
export const DESK_FORMAT = "hatside-desk";
/** The first version in which a desk was kept by itself; its versions are those of setups. */
const FIRST_VERSION = 3;

/** A desk as it is kept, exported and shared by itself, to be copied into setups. */
export interface DeskFile extends Desk {
  readonly format: typeof DESK_FORMAT;
  readonly version: typeof VERSION;
}

/** A desk from outside, read or not. */
export type ReadDesk = Read<DeskFile>;
/** Anything that a file or a link can carry, read or not. */
export type ReadThing = ReadSetup | ReadDesk;

/** A desk as a file of its own. */
export const deskFile = (desk: Desk): DeskFile => ({ format: DESK_FORMAT, version: VERSION, ...desk });

/** The desk of such a file, as a setup has it. */
export const deskOf = ({ format, version, ...desk }: DeskFile): Desk => desk;

/** Whether something that was read is a desk. */
export const isDesk = (file: SetupFile | DeskFile): file is DeskFile => file.format === DESK_FORMAT;

/**
 * Reads a desk from outside by the rules that hold for the desk in a setup; an earlier version is brought up as the
 * desk of a setup of that version.
 * @param value parsed JSON; it is not changed
 */
export const readDesk = (value: unknown, migrations: readonly Migration[] = MIGRATIONS): ReadDesk =>
  readNoting("desk", (note) => {
    const newest = migrations.length + 1;
    const kind: FileKind = { format: DESK_FORMAT, what: "desk", oldest: FIRST_VERSION, newest };
    const { raw, version } = ofKind(value, kind);
    const { format: _format, version: _version, ...desk } = raw;
    const setup = migrate({ format: FORMAT, version, desk }, migrations);
    return deskFile(deskFields(setup.desk, "", note));
  });

/** Reads a desk from the text of a file. */
export const readDeskText = (text: string): ReadDesk => readText("desk", text, (value) => readDesk(value));

/** Reads what calls itself a desk as one, anything else as a setup. */
export const readThing = (value: unknown): ReadThing =>
  isFields(value) && value.format === DESK_FORMAT ? readDesk(value) : readSetup(value);

/** Reads a desk or a setup from the text of a file. */
export const readThingText = (text: string): ReadThing =>
  readText<SetupFile | DeskFile>("setup", text, readThing) as ReadThing;

/** The text of a desk as it is kept, exported and shared. */
export const printDesk = (desk: Desk): string => `${JSON.stringify(deskFile(desk), null, 1)}\n`;
