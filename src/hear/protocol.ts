import type { FoundHit } from "../core/hear/hit";
import type { PairReading } from "../core/hear/pair";
import type { Hertz } from "../core/model/units";

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
  | { readonly kind: "hits"; readonly wanted: boolean };

/** What it tells. */
export type EarNews =
  | { readonly kind: "reading"; readonly reading: PairReading; readonly channels: number }
  | { readonly kind: "hit"; readonly found: FoundHit };
