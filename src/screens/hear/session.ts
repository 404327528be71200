import { computed, signal } from "@preact/signals";
import type { FoundHit } from "../../core/hear/hit";
import type { InputDevice, InputEnd, InputProblem } from "../../core/hear/input";
import { type InputFault, inputFault } from "../../core/hear/input-fault";
import type { PairReading } from "../../core/hear/pair";
import type { SteadyReading } from "../../core/hear/steady-meter";
import type { HearingPoint } from "../../core/model/setup";
import type { Db, Seconds, Sides } from "../../core/model/units";
import { type LiveInput, openLiveInput } from "../../hear/input";
import type { EarNews } from "../../hear/protocol";

/** The audio input: whether it is open, and if not, why. */
type Ear =
  | { readonly kind: "closed"; readonly why: InputProblem | InputEnd | null }
  | { readonly kind: "opening" }
  | { readonly kind: "open"; readonly input: LiveInput };

/** The one audio input of the app. */
export const ear = signal<Ear>({ kind: "closed", why: null });
/** The inputs to choose from, once one is open. */
export const devices = signal<readonly InputDevice[]>([]);
/** Where the input is fed from, as it was said last. */
export const fedFrom = signal<HearingPoint>("mixer");
/** What the meters read last; null before the first time. */
export const reading = signal<PairReading | null>(null);

const isMuted = signal(false);
const steadyFault = signal<InputFault | null>(null);
/** What keeps L and R from being measured; null where nothing does, or no input is open. */
export const fault = computed(() => (ear.value.kind === "open" ? steadyFault.value : null));

/** Silence is said of after so many readings, 5 s: between two hits it is usual. A design choice. */
const SILENT_FOR = 50;
/** A clip is said of for so many readings, 3 s: long enough to be read. A design choice. */
const OVERLOAD_FOR = 30;
let silentFor = 0;
let overloadFor = 0;

/** What is wrong, but for pauses and with time to read it. */
const steady = (found: InputFault | null): InputFault | null => {
  silentFor = found === "silent" ? silentFor + 1 : 0;
  overloadFor = found === "overload" ? OVERLOAD_FOR : Math.max(0, overloadFor - 1);
  if (found === "silent" && silentFor < SILENT_FOR) return null;
  return found ?? (overloadFor > 0 ? "overload" : null);
};

let control: AbortController | null = null;
let onHit: ((found: FoundHit) => void) | null = null;

const orderHits = (): void => {
  if (ear.value.kind === "open") ear.value.input.order({ kind: "hits", wanted: onHit !== null });
};

/** Hears every hit from now on, whenever the input is open; null hears none. */
export const hearHits = (call: ((found: FoundHit) => void) | null): void => {
  onHit = call;
  orderHits();
};

/** Whoever waits for a steady sound to be measured. */
let onSteady: ((measured: SteadyReading | null) => void) | null = null;

const endSteady = (measured: SteadyReading | null): void => {
  onSteady?.(measured);
  onSteady = null;
};

/** How long a steady sound is measured. A design choice: pink noise is steady to a tenth of a dB by then. */
const STEADY: Seconds = 3;

/**
 * Measures a steady sound for three seconds.
 * @param noise level of each side without it, dBFS rms; −∞ where nobody has measured it
 * @returns null where the input was closed before
 */
export const measureSteady = (noise: Sides<Db>): Promise<SteadyReading | null> => {
  endSteady(null);
  if (ear.value.kind !== "open") return Promise.resolve(null);
  ear.value.input.order({ kind: "steady", seconds: STEADY, noise });
  return new Promise((done) => {
    onSteady = done;
  });
};

const heard = (news: EarNews): void => {
  if (news.kind === "steady") {
    endSteady(news.steady);
    return;
  }
  if (news.kind === "hit") {
    onHit?.(news.found);
    return;
  }
  reading.value = news.reading;
  steadyFault.value = steady(inputFault(news.reading, news.channels, isMuted.value));
};

/** Closes the input, or stops opening it. */
export const closeEar = (why: InputEnd | null = null): void => {
  control?.abort();
  control = null;
  endSteady(null);
  ear.value = { kind: "closed", why };
};

/**
 * Opens an input, in the place of the one that is open. Call it from a tap.
 * @param device null is the one that the system takes
 */
export const openEar = async (device: string | null): Promise<void> => {
  closeEar();
  const mine = new AbortController();
  control = mine;
  ear.value = { kind: "opening" };
  reading.value = null;
  steadyFault.value = null;
  isMuted.value = false;
  [silentFor, overloadFor] = [0, 0];
  const opened = await openLiveInput(
    device,
    {
      heard,
      devices: (all) => {
        devices.value = all;
      },
      silenced: (is) => {
        isMuted.value = is;
      },
      ended: closeEar,
    },
    mine.signal,
  );
  if (control !== mine) return;
  if (!opened) closeEar("hidden");
  else if (opened.ok) {
    ear.value = { kind: "open", input: opened.input };
    orderHits();
  } else {
    control = null;
    ear.value = { kind: "closed", why: opened.why };
  }
};

/** Forgets the highest figures of the meters. */
export const resetMeters = (): void => {
  if (ear.value.kind === "open") ear.value.input.order({ kind: "reset" });
};
