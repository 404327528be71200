import { levelOf } from "../level/decibels";
import type { Desk, LawId, LawReference } from "../model/setup";
import type { Db, Gain, Pan, Sides } from "../model/units";

/** One way for a pan to become two gains. */
export interface Law {
  readonly id: LawId;
  /** Name in the trade's words, as shown. */
  readonly name: string;
  /**
   * Gain of one side for the share t of the way towards it, 0…1: exactly 0 at 0, exactly 1 at 1.
   * @param centreDb only the "custom" law reads it: centre attenuation, dB, positive
   */
  readonly curve: (t: number, centreDb: Db) => Gain;
  /** What stays the same across the pan: the power of both sides, their plain sum, or neither. */
  readonly keeps: "power" | "sum" | "neither";
  /** Where the formula stands. */
  readonly source: string;
}

/** The first quarter of a sine for a share 0…1: exactly 0 at 0 and exactly 1 at 1. */
export const quarter = (t: number): number => Math.sin((t * Math.PI) / 2);

const custom = (t: number, centreDb: Db): Gain =>
  t === 0 ? 0 : quarter(t) ** (centreDb / (10 * Math.log10(2)));

/** Every law by its id, in the order in which they are shown. */
export const LAWS: { readonly [id in LawId]: Law } = {
  sine: {
    id: "sine",
    name: "Constant power, sin/cos",
    curve: quarter,
    keeps: "power",
    source: "W3C Web Audio API 1.1, StereoPannerNode; MMA RP-036",
  },
  root: {
    id: "root",
    name: "Constant power, square root",
    curve: Math.sqrt,
    keeps: "power",
    source: "textbook formula: the gains are the square roots of the shares",
  },
  linear: {
    id: "linear",
    name: "Linear",
    curve: (t) => t,
    keeps: "sum",
    source: "textbook formula",
  },
  mean45: {
    id: "mean45",
    name: "−4.5 dB, mean of linear and sin/cos",
    curve: (t) => Math.sqrt(t * quarter(t)),
    keeps: "neither",
    source: "common practice, no source: geometric mean of the two laws",
  },
  sine45: {
    id: "sine45",
    name: "−4.5 dB, sin/cos to the power 1.5",
    curve: (t) => quarter(t) ** 1.5,
    keeps: "neither",
    source: "common practice, no source: sin/cos raised to 1.5",
  },
  cosine2: {
    id: "cosine2",
    name: "Cosine squared",
    curve: (t) => quarter(t) ** 2,
    keeps: "sum",
    source: "textbook formula: cos² + sin² = 1",
  },
  custom: {
    id: "custom",
    name: "Custom centre drop",
    curve: custom,
    keeps: "neither",
    source: "sin/cos raised to A / (10 log 2)",
  },
};

/** What of a console decides how a one-channel channel is panned. */
export type PanSettings = Pick<Desk, "law" | "centreDb" | "reference">;

/** Gain of the law that counts as 0 dB: the fully panned side's, or the centre's. */
const unity = (law: Law, centreDb: Db, reference: LawReference): Gain =>
  reference === "sides" ? 1 : law.curve(0.5, centreDb);

/**
 * Left and right gain of a one-channel channel.
 * The ends are exactly 0, and a mirrored pan gives exactly the mirrored gains:
 * both sides are read off one curve by the distance from centre.
 * @param pan −1 house left … +1 house right
 * @example panGains({ law: "linear", centreDb: 3, reference: "sides" }, 0.5) // [0.25, 0.75]
 */
export const panGains = (settings: PanSettings, pan: Pan): Sides => {
  const law = LAWS[settings.law];
  const one = unity(law, settings.centreDb, settings.reference);
  const away = Math.abs(pan);
  const near = law.curve((1 + away) / 2, settings.centreDb) / one;
  const far = law.curve((1 - away) / 2, settings.centreDb) / one;
  return pan <= 0 ? [near, far] : [far, near];
};

/** Level of each side at the centre against the fully panned side, dB (negative). */
export const centreLevel = (id: LawId, centreDb: Db): Db => levelOf(LAWS[id].curve(0.5, centreDb));

/** A law with a reference, among all of them. */
export interface LawCase {
  readonly law: LawId;
  readonly reference: LawReference;
  /** The console's own law and reference, as it is set. */
  readonly believed: boolean;
}

const REFERENCES: readonly LawReference[] = ["sides", "centre"];

/**
 * Something by every law with both references, in the order in which laws are shown, sides first.
 * @param settings as they are believed to be; all but law and reference stay so in every case
 */
export const byEveryLaw = <Settings extends PanSettings, Made extends object>(
  settings: Settings,
  make: (settings: Settings) => Made,
): (LawCase & Made)[] =>
  Object.values(LAWS).flatMap(({ id: law }) =>
    REFERENCES.map((reference) => ({
      law,
      reference,
      believed: law === settings.law && reference === settings.reference,
      ...make({ ...settings, law, reference }),
    })),
  );
