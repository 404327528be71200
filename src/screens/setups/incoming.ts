import { signal } from "@preact/signals";
import { listed } from "../../core/patch/words";
import { type ReadSetup, readSetup } from "../../document/check-file";
import { importFile } from "../../shelf/file";
import { fromLink } from "../../shelf/link";
import { goTo, receivedLink, replacePlace } from "../route";

/** Setups from outside, to be looked at before anything of them is kept. */
export interface Incoming {
  /** Where they come from, as the end of a sentence: "a link", "“hall.hatside.json”". */
  readonly from: string;
  readonly setups: readonly ReadSetup[];
  /** The link they come from; "" for files. */
  readonly link: string;
}

/** What waits for the user's word; null while there is nothing. */
export const incoming = signal<Incoming | null>(null);

const setupsIn = async (file: File): Promise<readonly ReadSetup[]> => {
  const found = await importFile(file);
  if (found.kind === "backup") return found.backup.setups;
  return found.kind === "setup" ? [found] : [{ ok: false, why: found.why }];
};

/** Shows what is in setup files and backups. Nothing is kept. */
export const lookIntoFiles = async (files: readonly File[]): Promise<void> => {
  const setups: ReadSetup[] = [];
  for (const file of files) setups.push(...(await setupsIn(file)));
  incoming.value = { from: listed(files.map((file) => `“${file.name}”`)), setups, link: "" };
  goTo("setups");
};

/** Shows what a link carries. Nothing is kept. */
export const lookIntoLink = async (link: string): Promise<void> => {
  const read = await fromLink(link);
  const setup: ReadSetup = read.ok ? readSetup(read.setup) : { ok: false, why: read.says };
  // In the meantime the address may have become another one.
  if (receivedLink.peek() === link) incoming.value = { from: "a link", setups: [setup], link };
};

/** Lets go of what waited, also of the link in the address. */
export const letGo = (): void => {
  incoming.value = null;
  replacePlace("setups");
};
