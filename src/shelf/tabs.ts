import type { Signal } from "@preact/signals-core";
import { patiently } from "./patience";

/** What a tab does when its turn comes or goes. */
export interface TurnHooks {
  /** This tab edits from now on: read what the other one left. Must not reject. */
  readonly gain: () => Promise<void>;
  /** Another tab edits from now on: save first. Must not reject. */
  readonly lose: () => Promise<void>;
  /** The tab that edits has saved something. */
  readonly changed: () => Promise<void>;
}

/** One tab edits at a time. */
export interface Turns {
  /** Edits here from now on; the other tab saves first, if it still can. */
  readonly takeOver: () => Promise<void>;
  /** Tells the other tabs that something was saved. */
  readonly saved: () => void;
}

/** What of the browser it needs. */
export interface Browser {
  readonly locks: Pick<LockManager, "request"> | undefined;
  readonly channel: Pick<BroadcastChannel, "postMessage" | "onmessage">;
}

const LOCK = "hatside-edit";
/** So long the other tab has to save when it is asked to hand over, ms; a frozen one never answers. */
const PATIENCE = 1500;

type Message = "hand over" | "handed over" | "saved";

/**
 * Finds out whose turn it is; resolves when that is known. Where the browser has no locks, or refuses them, every tab edits, and what
 * two of them change at once is kept as two setups.
 * @param watching is true while another tab edits
 */
export const takeTurns = async (
  { locks, channel }: Browser,
  watching: Signal<boolean>,
  hooks: TurnHooks,
): Promise<Turns> => {
  /** Whether this tab stands in the queue already. */
  let isWaiting = false;
  let handedOver: () => void = () => {};

  const send = (message: Message): void => channel.postMessage(message);
  const lose = async (): Promise<void> => {
    if (watching.peek()) return;
    // What was changed until now is handed to the shelf before nothing more can be.
    const saved = hooks.lose();
    watching.value = true;
    await saved;
  };
  /** Has the lock for as long as the page lives, or until another tab steals it. */
  const hold = (): Promise<never> => new Promise(() => {});
  const request = (options: LockOptions): void => {
    let isLost = false;
    const edit = async (): Promise<never> => {
      if (!options.steal) isWaiting = false;
      await hooks.gain();
      // Another tab may have stolen the turn meanwhile.
      if (!isLost) watching.value = false;
      return hold();
    };
    locks?.request(LOCK, options, edit).catch(async () => {
      isLost = true;
      await lose();
      wait();
    });
  };
  const wait = (): void => {
    if (isWaiting) return;
    isWaiting = true;
    request({});
  };

  channel.onmessage = ({ data }: MessageEvent<Message>) => {
    if (data === "hand over" && !watching.peek()) lose().finally(() => send("handed over"));
    if (data === "handed over") handedOver();
    if (data === "saved" && watching.peek()) hooks.changed();
  };

  if (locks) {
    const isKnown = new Promise<void>((known) => {
      let isRefused = true;
      locks
        .request(LOCK, { ifAvailable: true }, (lock) => {
          isRefused = false;
          watching.value = lock === null;
          known();
          return lock === null ? undefined : hold();
        })
        .catch(() => (isRefused ? known() : lose()))
        .then(() => (isRefused ? undefined : wait()));
    });
    // Should the answer come after all, it counts from then on.
    await patiently(isKnown, () => {}).catch(() => {});
  }
  return {
    takeOver: async () => {
      if (!watching.peek()) return;
      const answered = new Promise<void>((resolve) => {
        handedOver = resolve;
        setTimeout(resolve, PATIENCE);
      });
      send("hand over");
      await answered;
      request({ steal: true });
    },
    saved: () => send("saved"),
  };
};
