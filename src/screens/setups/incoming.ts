import { signal } from "@preact/signals";
import { quoted } from "../../core/lib/direction";
import { isTicks, type TicksFile } from "../../document/ticks-file";
import { readAway } from "../../shelf/away";
import { partOf } from "../../shelf/link-parts";
import type { Received, ReceivedThing } from "../../shelf/received";
import { formatCount, formatList } from "../../text/words";
import { goTo, receivedLink, replacePlace } from "../route";

import { collect } from "./link-parts";

/** Setups and desks from outside, to be looked at before anything of them is saved. */
export interface Incoming {
  /** Where they come from, as the end of a sentence: "a link", "“hall.hatside.json”". */
  readonly from: string;
  /** Null while they are read. */
  readonly things: readonly ReceivedThing[] | null;
  /** The link they come from; "" for files. */
  readonly link: string;
  /** A helper’s ticks, in their stead. */
  readonly ticks?: TicksFile;
  /** A link that comes in several codes, as long as some are missing. */
  readonly parts?: { readonly have: readonly number[]; readonly of: number };
}

/** What waits for the user's word; null while there is nothing. */
export const incoming = signal<Incoming | null>(null);

/** Files up to so many are named. */
const NAMED = 3;

const filesSaid = (files: readonly File[]): string =>
  files.length > NAMED
    ? formatCount(files.length, "file")
    : formatList(files.map((file) => quoted(file.name)));

const isOfTicks = (read: Received): read is Extract<Received, { ok: true }> & { file: TicksFile } =>
  read.ok && isTicks(read.file);

/** Shows what is in files of setups and desks, and in backups. Nothing is saved. */
export const lookIntoFiles = async (files: readonly File[]): Promise<void> => {
  const reading: Incoming = { from: filesSaid(files), things: null, link: "" };
  incoming.value = reading;
  goTo("setups");
  const all = await readAway({ kind: "files", files });
  const things = all.filter((read): read is ReceivedThing => !isOfTicks(read));
  // In the meantime something else may have come, or the user may have let go of it.
  if (incoming.peek() === reading) incoming.value = { ...reading, things };
};

/** Lets go of what waited, also of the link in the address. */
export const letGo = (): void => {
  incoming.value = null;
  replacePlace("setups");
};

/** Shows what a link carries. Nothing is saved; a link that carries nothing readable does not stay in the history. */
export const lookIntoLink = async (link: string): Promise<void> => {
  const reading: Incoming = { from: "a link", things: null, link };
  const part = partOf(link);
  const collected = part ? collect(part) : { link };
  if (!("link" in collected)) {
    incoming.value = { ...reading, things: [], parts: collected };
    return;
  }
  incoming.value = reading;
  const all = await readAway({ kind: "link", text: collected.link });
  if (incoming.peek() !== reading || receivedLink.peek() !== link) return;
  const isRefused = !all.some((read) => read.ok);
  const ticks = all.find(isOfTicks)?.file;
  const things = all.filter((read): read is ReceivedThing => !isOfTicks(read));
  incoming.value = { ...reading, things, link: isRefused ? "" : link, ...(ticks ? { ticks } : {}) };
  if (isRefused) replacePlace("setups");
};
