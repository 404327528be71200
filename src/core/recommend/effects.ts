import { type Buses, scoreOf } from "./badness";
import type { Elsewhere } from "./elsewhere";
import type { Mirrored, Panning, Situation } from "./model";
import { entriesFor, type Hearing, type PanState, type TallyEntry, type Viewpoint } from "./tally";

/** What mirroring pans does to what somebody hears: as it is, and what the mirrored pan of each voice adds. */
export interface Effect {
  readonly base: Buses;
  /** Five figures a voice, one after the other: bad, flat, heard, weight, and the score by that voice alone. */
  readonly changes: Float64Array;
}

/** How many figures an effect has for each voice. */
export const FIGURES = 5;
/** A score that changes by less is rounding. */
export const ROUNDING = 1e-9;

/** What an entry counts as on the wrong side, or as lost. */
export const badOf = ({ agreement, lost }: TallyEntry): number =>
  (agreement === "wrong" ? 1 : 0) + (lost ? 1 : 0);
/** What an entry counts as without a side. */
export const flatOf = ({ agreement }: TallyEntry): number => (agreement === "centred" ? 1 : 0);

const add = (buses: Buses, entry: TallyEntry, times = 1): void => {
  buses.bad += times * badOf(entry);
  buses.flat += times * flatOf(entry);
  buses.heard += times * entry.heard;
  buses.weight += times * entry.weight;
};

/** An effect of what each voice adds as it is and with its pan mirrored; null for a voice that is not heard. */
export const effectFrom = (
  rest: readonly TallyEntry[],
  voices: readonly (readonly [asIs: TallyEntry, mirrored: TallyEntry] | null)[],
): Effect => {
  const base: Buses = { bad: 0, flat: 0, heard: 0, weight: 0 };
  for (const entry of rest) add(base, entry);
  const changes = new Float64Array(voices.length * FIGURES);
  voices.forEach((entries, voice) => {
    if (!entries) return;
    const [now, then] = entries;
    add(base, now);
    const at = voice * FIGURES;
    changes[at] = badOf(then) - badOf(now);
    changes[at + 1] = flatOf(then) - flatOf(now);
    changes[at + 2] = then.heard - now.heard;
    changes[at + 3] = then.weight - now.weight;
  });
  const score = scoreOf(base);
  for (let at = 0; at < changes.length; at += FIGURES) {
    const heard = base.heard + (changes[at + 2] as number);
    const weight = base.weight + (changes[at + 3] as number);
    changes[at + 4] = scoreOf({ heard, weight }) - score;
  }
  return { base, changes };
};

/** What a panning does to the pans of a voice that it mirrors. */
const panStateOf = ({ voices }: Situation, panning: Panning, at: number): PanState =>
  panning === "foh"
    ? { inBus: voices[at]?.send.pan === null, channel: true }
    : { inBus: true, channel: false };

const AS_IS: PanState = { inBus: false, channel: false };

/** What each panning does for a viewpoint by a way of hearing. */
export const effectsFor = (
  situation: Situation,
  view: Viewpoint,
  hearing: Hearing,
): ((panning: Exclude<Panning, "keep">) => Effect) => {
  const entry = entriesFor(situation, view, hearing);
  const asIs = situation.voices.map((_, at) => entry(at, AS_IS));
  return (panning) =>
    effectFrom(
      [],
      asIs.map((now, at) => [now, entry(at, panStateOf(situation, panning, at))]),
    );
};

/** What mirroring channel pans does for somebody who does not hear the bus. */
export const effectElsewhere = ({ rest, voices }: Elsewhere): Effect => effectFrom(rest, voices);

/** What somebody gets with the pans of some voices mirrored. */
export const busesWith = ({ base, changes }: Effect, mirrored: Mirrored): Buses => {
  let { bad, flat, heard, weight } = base;
  for (const voice of mirrored) {
    const at = voice * FIGURES;
    bad += changes[at] as number;
    flat += changes[at + 1] as number;
    heard += changes[at + 2] as number;
    weight += changes[at + 3] as number;
  }
  return { bad, flat, heard, weight };
};

/** Those sums with one voice turned over: mirrored, or back. */
export const toggled = (buses: Buses, { changes }: Effect, voice: number, isMirrored: boolean): Buses => {
  const by = isMirrored ? -1 : 1;
  const at = voice * FIGURES;
  return {
    bad: buses.bad + by * (changes[at] as number),
    flat: buses.flat + by * (changes[at + 1] as number),
    heard: buses.heard + by * (changes[at + 2] as number),
    weight: buses.weight + by * (changes[at + 3] as number),
  };
};
