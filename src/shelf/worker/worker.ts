import { refused } from "../../core/lib/result";
import { readLinked } from "../../document/linked";
import { reasonOf } from "../../text/words";
import type { FileReply, ShelfTask } from "../away";
import { readFile } from "../file";
import { fromLink } from "../link";
import { type Received, received } from "../received";

declare const self: DedicatedWorkerGlobalScope;

const say = (reply: FileReply): void => self.postMessage(reply);

const readLink = async (text: string): Promise<Received> => {
  const read = await fromLink(text);
  return read.ok ? received(readLinked(read.setup)) : read;
};

/** One task, then the page ends this worker. */
self.onmessage = async ({ data }: MessageEvent<ShelfTask>): Promise<void> => {
  try {
    if (data.kind === "link") say({ kind: "thing", read: await readLink(data.text) });
    else for (const file of data.files) for (const read of await readFile(file)) say({ kind: "thing", read });
  } catch (error) {
    // What is thrown in a promise the page would never hear of.
    say({ kind: "thing", read: refused(`Reading stopped: ${reasonOf(error)}.`) });
  }
  say({ kind: "end" });
};
