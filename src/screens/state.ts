import { computed, signal } from "@preact/signals";
import type { ComponentType } from "preact";
import type { Bus, Id } from "../core/model/setup";
import type { SetupFile } from "../document/schema";
import { current } from "../document/store";

/** Every screen by its address: those at the thumb and what lies behind them, then the two behind the header. */
export const PLACES = [
  "channels",
  "image",
  "headroom",
  "patch",
  "decide",
  "desk",
  "trace",
  "check",
  "setups",
  "about",
] as const;
/** One of the screens. */
export type Place = (typeof PLACES)[number];

/** Where the user is. */
export const place = signal<Place>("channels");

/** A word about what was just done, with the way back: undo for as long as the setup is this one, or one of its own. */
export const toast = signal<{
  readonly says: string;
  readonly undo: SetupFile | (() => void) | false;
  /** There is something to be set at the desk now. */
  readonly atDesk?: boolean;
} | null>(null);

/** The plan before it was last changed by a tap (a fix, a recommendation, a plan), and in which setup. */
export const planBefore = signal<{ readonly of: string | null; readonly file: SetupFile } | null>(null);

/** How long such a word stays. */
export const TOAST_MS = 8000;

const wantedBus = signal<Id | null>(null);
const wantedListener = signal<Id | null>(null);

/** The bus that the screens are about: the chosen one, else the first pair. */
export const chosenBus = computed<Bus | undefined>(() => {
  const { buses } = current.value;
  return buses.find((s) => s.id === wantedBus.value) ?? buses.find((s) => s.stereo) ?? buses[0];
});

/** The listener that the screens are about: the chosen one, else the one who matters most. */
export const chosenListener = computed(() => {
  const { listeners, preferences: wishes } = current.value;
  const find = (id: Id | null) => listeners.find((l) => l.id === id);
  return find(wantedListener.value) ?? find(wishes.first) ?? listeners[0];
});

/** Turns every screen to a bus. */
export const chooseBus = (id: Id): void => {
  wantedBus.value = id;
};

/** Turns every screen to a listener. */
export const chooseListener = (id: Id): void => {
  wantedListener.value = id;
};

/** The copy of the app on this device: there or not, why there is none, and how to take another version that waits. */
export const offline = signal<{
  readonly ready: boolean;
  /** As the middle of a sentence; "" while nothing is wrong. */
  readonly failed: string;
  readonly accept: (() => void) | null;
  /** The other one was agreed to, and is awaited. */
  readonly isComing: boolean;
  /** Looks up whether the copy is still whole, and fetches what is missing. */
  readonly look: (() => Promise<void>) | null;
}>({ ready: false, failed: "", accept: null, isComing: false, look: null });

/** What may be said above every screen besides what the first one waits for; null until it has been loaded. */
export const laterNotice = signal<ComponentType | null>(null);
