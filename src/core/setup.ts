import type { Db, Degrees, Legs, Metres, Pan, Side } from "./units";

/** Key of a source, piece, sum or listener: unique in its setup, never shown. */
export type Id = string;

/** How pan becomes two gains; the records are in `laws.ts`. */
export type LawId = "sine" | "root" | "linear" | "mean45" | "sine45" | "cosine2" | "custom";
/** Which end of a law is 0 dB: the fully panned side, or the centre. */
export type LawReference = "sides" | "centre";
/** What the knob does to a source of two channels. */
export type TwoChannelLaw = "balance-linear" | "balance-sine" | "pan";
/** How the console prints a pan. */
export type PanStyle = "steps" | "midi" | "clock";
/** What 0 dBFS rms means: a full-scale sine reads −3.01 ("sample") or 0 ("aes17"). */
export type RmsConvention = "sample" | "aes17";

/** How the kit is set up: for a right-handed, left-handed or open-handed player. */
export type Hand = "right" | "left" | "open";
/** What a piece is. */
export type PieceKind =
  | "kick"
  | "snare"
  | "hat"
  | "tom"
  | "floor"
  | "ride"
  | "crash"
  | "percussion"
  | "overhead"
  | "other";
/** What makes a piece sound. "whole" marks a microphone place that hears the whole kit. */
export type Limb = "hand" | "kick-foot" | "hat-foot" | "whole";
/** What a source picks up; decides which tap points fit. */
export type SourceKind =
  | "drum"
  | "voice"
  | "bass"
  | "guitar"
  | "keys"
  | "horn"
  | "playback"
  | "talk"
  | "other";
/** Where in the channel a feed is taken. */
export type TapPoint = "before-filter" | "before-eq" | "before-fader" | "after-fader";

/** One thing with a place at the kit: struck, stamped on, or a microphone place over all of it. */
export interface Piece {
  readonly id: Id;
  readonly name: string;
  readonly kind: PieceKind;
  /** Metres from the throne's centre, to the drummer's right. */
  readonly x: Metres;
  /** Metres from the throne's centre, to the drummer's front. */
  readonly y: Metres;
  /** Every limb that can sound it. */
  readonly limbs: readonly Limb[];
  /** Whose limbs: "drummer" or another player's name (hand percussion). */
  readonly player: string;
}

/** The drum kit: its pieces and the way its throne is turned. */
export interface Kit {
  readonly hand: Hand;
  /** Turn of the throne: 0 faces the audience, positive to the drummer's own left. */
  readonly yaw: Degrees;
  readonly pieces: readonly Piece[];
}

/** How the console pans, prints and counts. */
export interface Console {
  readonly law: LawId;
  /** Centre attenuation of the "custom" law, dB, positive; the other laws have their own. */
  readonly centreDb: Db;
  readonly reference: LawReference;
  readonly twoChannel: TwoChannelLaw;
  readonly panStyle: PanStyle;
  /** Steps of the pan control each side of centre. */
  readonly panSteps: number;
  /** Smallest step of a level the console shows, dB. */
  readonly levelStep: Db;
  readonly rms: RmsConvention;
  /** Output level at 0 dBFS. */
  readonly outputDbu: Db;
}

/** One microphone or line. */
export interface Source {
  readonly id: Id;
  readonly name: string;
  readonly kind: SourceKind;
  /** The piece it stands at; null where it has no place at the kit. */
  readonly piece: Id | null;
  readonly channels: 1 | 2;
  /** House pan. */
  readonly pan: Pan;
  readonly muted: boolean;
  /** Polarity switched. */
  readonly inverted: boolean;
  /** Level while playing, dBFS rms in the console's convention; null where nobody knows. */
  readonly level: Db | null;
  /** Peak, dBFS; null where nobody knows. */
  readonly peak: Db | null;
  /** Must keep its sides whatever happens to the pair (stereo playback, keys). */
  readonly keepSides: boolean;
}

/** One source's way into one sum. */
export interface Send {
  readonly source: Id;
  /** Level of the send, dB; null is off (−∞). */
  readonly level: Db | null;
  /** Pan in this sum; null follows the house pan. */
  readonly pan: Pan | null;
}

/** Several sources mixed to one leg (mono) or two (a pair). */
export interface Sum {
  readonly id: Id;
  readonly name: string;
  readonly stereo: boolean;
  readonly sends: readonly Send[];
  /** Level change on both legs, dB. */
  readonly trim: Db;
  /** Further level change on each leg, dB. */
  readonly legTrim: Legs<Db>;
  /** Polarity switched on a leg. */
  readonly legInverted: Legs<boolean>;
  /** Processing (equaliser, delay) on one leg only, so that the legs are no mirror of each other. */
  readonly unevenLegs: boolean;
  /** The legs are meant to be patched in reverse order. */
  readonly reversed: boolean;
  /** Folded to mono on purpose: both legs carry the same. */
  readonly folded: boolean;
  /** Loss of a pad or trim between output and receiving input, dB, positive. */
  readonly padDb: Db;
}

/** The drummer faces with the throne, the audience the stage, performers as set. */
export type ListenerKind = "drummer" | "performer" | "audience";

/** Somebody who hears a feed. The audience is always one of them and hears the house. */
export interface Listener {
  readonly id: Id;
  readonly name: string;
  readonly kind: ListenerKind;
  /** Stage plan: metres to house right of the throne. */
  readonly x: Metres;
  /** Stage plan: metres from the throne towards the audience. */
  readonly y: Metres;
  /** 0 faces the audience, positive to the listener's own left; the drummer's is the kit's yaw, the audience's 180. */
  readonly facing: Degrees;
  /** The sum heard; null hears the house (audience) or no sum. */
  readonly sum: Id | null;
  /** Left and right flipped at this listener's own mixer. */
  readonly flipped: boolean;
  /** Hears both legs folded into one. */
  readonly mono: boolean;
}

/** What one slot takes. */
export type Feed =
  | { readonly kind: "source"; readonly source: Id; readonly channel: "both" | Side; readonly tap: TapPoint }
  | { readonly kind: "leg"; readonly sum: Id; readonly leg: Side };

/** One input of the personal monitor system. */
export interface Slot {
  readonly feed: Feed;
  readonly on: boolean;
  readonly trim: Db;
}

/** The personal monitor system: its slots and what its inputs take. */
export interface Monitor {
  /** How many inputs there are. */
  readonly slotCount: number;
  /** In order; null is free. May be longer than `slotCount`: what is over is kept and shown. */
  readonly slots: readonly (Slot | null)[];
  /** Largest level the receiving input takes, dBu. */
  readonly inputMaxDbu: Db;
}

/** What the user lets a repair do. */
export interface Wishes {
  /** Whose image matters most. */
  readonly first: Id;
  /** Nothing may change in the house. */
  readonly houseFixed: boolean;
  /** No slot that is free may be taken. */
  readonly slotsFixed: boolean;
  /** Headroom wanted at every ceiling, dB. */
  readonly margin: Db;
}

/** What the drummer can say of a hit. */
export type Answer = "left" | "middle" | "right" | "nothing" | "unclear";

/** One hit of a check at the kit and what was said of it. */
export interface Hit {
  readonly piece: Id;
  readonly answer: Answer;
}

/** Data for the estimate of a level at the ear. */
export interface Ear {
  readonly unit: "dB/mW" | "dB/V";
  readonly sensitivity: Db;
  readonly impedance: number;
  readonly sourceImpedance: number;
  /** Drive at the earphone's amplifier, volts rms without load. */
  readonly drive: number;
  /** Isolation of the earpiece, dB. */
  readonly isolation: Db;
  /** Level on stage, dBA. */
  readonly stage: Db;
}

/** One source's figures from a recording. All levels dBFS, sample convention. */
export interface Measured {
  readonly source: Id;
  readonly rms: Db;
  readonly playing: Db;
  readonly peak: Db;
  readonly truePeak: Db;
  readonly fast: Db;
  readonly slow: Db;
}

/** Measured figures of one recording, kept without the audio. */
export interface Recording {
  readonly name: string;
  readonly seconds: number;
  readonly sources: readonly Measured[];
  /** Correlation of each two sources in the order of `sources`, row by row, −1…1. */
  readonly correlation: readonly (readonly number[])[];
}

/** All that the arithmetic reads: everything the user has said about one band on one evening. */
export interface Setup {
  readonly kit: Kit;
  readonly console: Console;
  readonly sources: readonly Source[];
  readonly sums: readonly Sum[];
  readonly listeners: readonly Listener[];
  readonly monitor: Monitor;
  readonly wishes: Wishes;
  readonly ear: Ear | null;
  readonly recording: Recording | null;
}
