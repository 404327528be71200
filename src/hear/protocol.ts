import type { Obstacle } from "../core/check/check";
import type { HeardDrum, HearingState } from "../core/hear/heard";
import type { FoundHit } from "../core/hear/hit";
import type { PairReading } from "../core/hear/pair";
import type { SteadyReading } from "../core/hear/steady-meter";
import type { HearingPoint, Listener, Setup } from "../core/model/setup";
import type { Db, Hertz, Seconds, Sides } from "../core/model/units";

/** What a worker is begun with: the other end of the worklet's line. */
export interface EarBegin {
  readonly kind: "begin";
  readonly rate: Hertz;
  readonly line: MessagePort;
}

/** What what hears can be told. */
export type EarOrder =
  /** Forget the highest figures. */
  | { readonly kind: "reset" }
  /** Look for hits, or no longer. */
  | { readonly kind: "hits"; readonly wanted: boolean }
  /** Measure a steady sound for so long, over a noise of this level on each side, dBFS rms. */
  | { readonly kind: "steady"; readonly seconds: Seconds; readonly noise: Sides<Db> };

/** What it tells. */
export type EarNews =
  | { readonly kind: "reading"; readonly reading: PairReading; readonly channels: number }
  | { readonly kind: "hit"; readonly found: FoundHit }
  | { readonly kind: "steady"; readonly steady: SteadyReading };

/** What is heard, and where: all that a verdict rests on but the hits. */
export interface JudgeBegin {
  readonly kind: "begin";
  readonly setup: Setup;
  readonly listener: Listener;
  readonly point: HearingPoint;
}

/** What was heard, to be judged anew each time. */
export interface JudgeAsk {
  readonly kind: "ask";
  readonly heard: readonly HeardDrum[];
}

/** What comes of it: what is believed now, or why there is nothing to hear. */
export type Judged = HearingState | Obstacle;
