import { computed, effect } from "@preact/signals-core";
import { canUndo, readOnly } from "../document/store";
import { indexedCupboard } from "./db";
import { askToKeep } from "./persist";
import { createShelf } from "./shelf";
import { type Turns, takeTurns } from "./tabs";
import { browserTally } from "./tally";

/** The shelf of this browser. */
export const shelf = createShelf(() => indexedCupboard("hatside"), browserTally);

let turns: Turns | undefined;

/** Edits in this tab from now on; the tab that did saves first. */
export const takeOver = async (): Promise<void> => turns?.takeOver();

/** A write that takes longer may never end, ms: until it has, leaving asks. */
const ASK_AFTER = 500;

const askBeforeLeaving = (event: BeforeUnloadEvent): void => event.preventDefault();

/** Saves when the page goes out of sight, and asks before leaving only where leaving loses something. */
const watchPage = (): void => {
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") shelf.flush();
    else if (readOnly.peek()) shelf.reload().catch(() => {});
  });
  // Without locks another tab may have changed it: then it is asked first, at the risk that no answer comes in time.
  addEventListener("pagehide", navigator.locks ? shelf.handOver : shelf.flush);
  // A value of its own: what is said of saving changes more often, and in between nobody would be asked.
  const risk = computed<"none" | "perhaps" | "sure">(() => {
    const { state } = shelf.saving.value;
    if (state === "failed" || (state === "unavailable" && canUndo.value !== null)) return "sure";
    return state === "saving" ? "perhaps" : "none";
  });
  effect(() => {
    if (risk.value === "none") return;
    const ask = (): void => addEventListener("beforeunload", askBeforeLeaving);
    const timer = risk.value === "perhaps" ? setTimeout(ask, ASK_AFTER) : ask();
    return () => {
      clearTimeout(timer ?? undefined);
      removeEventListener("beforeunload", askBeforeLeaving);
    };
  });
};

/** Tells the other tabs of what was saved, and asks the browser to keep it once it is the user's own. */
const watchSaving = (): void => {
  effect(() => {
    if (shelf.saving.value.state !== "saved" || readOnly.value) return;
    turns?.saved();
    if (canUndo.peek() !== null) askToKeep();
  });
};

/** Finds out whose turn it is and opens what was open last. To be awaited before anything is shown; never rejects. */
export const startShelf = async (): Promise<void> => {
  // Where the newest cannot be read, the revision on the shelf still keeps both from being lost.
  const reload = (): Promise<void> => shelf.reload().catch(() => {});
  const channel = globalThis.BroadcastChannel
    ? new BroadcastChannel("hatside")
    : { postMessage: () => {}, onmessage: null };
  turns = await takeTurns({ locks: navigator.locks, channel }, readOnly, {
    gain: reload,
    lose: shelf.flush,
    changed: reload,
  });
  await shelf.start();
  watchPage();
  watchSaving();
};
