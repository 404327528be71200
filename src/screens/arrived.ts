import { signal } from "@preact/signals";
import { isSound } from "../measure/kinds";
import { attempt } from "./attempt";
import { arrivedList } from "./paper/arrived-list";
import { goTo } from "./route";
import { toast } from "./state";

/** Recordings that the app was opened with or that were shared to it, waiting for the screen that measures them. */
export const arrivedRecordings = signal<readonly File[]>([]);

const LIST = /\.(csv|tsv|txt)$/i;

/** Leads files that the app was opened with, or that were shared to it, to where they are looked at. Nothing of them is kept yet. */
export const takeFiles = (files: readonly File[]): void => {
  const lists = files.filter((file) => LIST.test(file.name));
  const recordings = files.filter(isSound);
  const others = files.filter((file) => !lists.includes(file) && !recordings.includes(file));
  if (recordings.length > 0) {
    arrivedRecordings.value = recordings;
    goTo("headroom");
  }
  if (lists.length > 0) {
    arrivedList.value = lists[0] ?? null;
    goTo("patch");
    if (lists.length > 1) toast.value = { says: "Several lists arrived: the first is shown", undo: false };
  }
  if (others.length > 0)
    void attempt("The files were not read", async () =>
      (await import("./setups/incoming")).lookIntoFiles(others),
    );
};
