import { type Refused, type Result, refused } from "../core/lib/result";
import type { DeskFile } from "../document/desk-file";
import type { SetupFile } from "../document/schema";
import type { TicksFile } from "../document/ticks-file";
import { describeReadRefusal, type ReadNote, type ReadRefusal } from "../text/reading";

/** A setup or a desk from a file, a backup or a link: read, with what of it was not taken; or why not. */
export type ReceivedThing<F = SetupFile | DeskFile> = Result<{ file: F; notes: readonly ReadNote[] }>;

/** Anything that a link can carry, read or not. */
export type Received = ReceivedThing<SetupFile | DeskFile | TicksFile>;

/** What was read, or why not in a sentence, as whoever shows it may have reasons of its own. */
export const received = <R extends { readonly ok: true }>(read: R | Refused<ReadRefusal>): R | Refused =>
  read.ok ? read : refused(describeReadRefusal(read.why));
