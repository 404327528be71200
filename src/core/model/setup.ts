import type { Db, Degrees, Metres, Pan, Seconds, Side, Sides } from "./units";

/** Key of a channel, piece, sum or listener: unique in its setup, never shown. */
export type Id = string;

/** How pan becomes two gains; the records are in `core/pan/laws.ts`. */
export type LawId = "sine" | "root" | "linear" | "mean45" | "sine45" | "cosine2" | "custom";
/** Which end of a law is 0 dB: the fully panned side, or the centre. */
export type LawReference = "sides" | "centre";
/** What the knob does to a channel of two channels. */
export type StereoLaw = "balance-linear" | "balance-sine" | "pan";
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
/** What a channel picks up; decides which tap points fit and whom it may share an input with. */
export type ChannelKind =
  | "drum"
  | "percussion"
  | "bass"
  | "guitar"
  | "keys"
  | "horn"
  | "strings"
  | "lead-vocal"
  | "vocal"
  | "playback"
  | "click"
  | "speech"
  | "talkback"
  | "audience"
  | "video"
  | "effects"
  | "other";
/** Colour of a channel, the user's own choice; no desk's colours, no meaning of its own. */
export type Colour = "red" | "orange" | "yellow" | "green" | "teal" | "blue" | "violet" | "grey";
/** Where a send is taken: it moves with the channel fader or it does not. */
export type SendTap = "pre-fader" | "post-fader";
/** How the desk reaches the monitor system: by converters and cables, or by numbers. */
export type Link = "analog" | "digital";
/** Where in the channel a feed is taken. */
export type TapPoint = "pre-hpf" | "pre-eq" | "pre-fader" | "post-fader";

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

/** What a channel mute silences besides everything that is taken after the fader. */
export interface MuteRule {
  /** Pre-fader sends too. */
  readonly preFaderSends: boolean;
  /** Direct outs that are taken at these tap points. */
  readonly directOuts: readonly TapPoint[];
}

/** How the desk is laid out, pans, prints and counts. */
export interface Desk {
  readonly name: string;
  /** How many input channels, buses and output ports there are. */
  readonly channelCount: number;
  readonly busCount: number;
  readonly portCount: number;
  /** Channels that lie under the hands at once. */
  readonly bankSize: number;
  /** How the output ports are named: a word and the number of the first ("Card 1", "Stage box 9"). */
  readonly portName: string;
  readonly firstPort: number;
  /** Whether a bus can overload before its fader: no on floating-point desks, yes on analog and fixed-point ones. */
  readonly busOverloads: boolean;
  readonly muteRule: MuteRule;
  /** Smallest step of a trim, dB. */
  readonly trimStep: Db;
  readonly law: LawId;
  /** Centre attenuation of the "custom" law, dB, positive; the other laws have their own. */
  readonly centreDb: Db;
  readonly reference: LawReference;
  readonly stereoLaw: StereoLaw;
  readonly panStyle: PanStyle;
  /** Steps of the pan control each side of centre. */
  readonly panSteps: number;
  /** Smallest step of a level the console shows, dB. */
  readonly levelStep: Db;
  readonly rms: RmsConvention;
  /** Output level at 0 dBFS. */
  readonly outputDbu: Db;
}

/** The feed of one channel by itself to the monitor system. Its output ports are those of the monitor inputs that take it. */
export interface DirectOut {
  readonly tap: TapPoint;
  readonly on: boolean;
  readonly trim: Db;
}

/** A column of an imported list that the app has no field for: its head and what stood there. */
export interface ExtraColumn {
  readonly head: string;
  readonly value: string;
}

/**
 * How much a channel wants a monitor input of its own: `must`; `prefer`; `if-left`, once nothing better can be done with
 * the input; `no-matter`, apart only where every channel that does not matter can be; `no`, of no use.
 */
export type OwnWish = "must" | "prefer" | "if-left" | "no-matter" | "no";
/** How much a channel's stereo is worth. */
export type StereoWish = "must" | "prefer" | "no";
/** Whom a channel may share a monitor input with. */
export type ShareWish = "nobody" | "family" | "anyone";

/** What a user changed of what the channel's kind asks of the monitor inputs; what is not here is as the kind has it. */
export interface ChannelRule {
  readonly own?: OwnWish;
  readonly stereo?: StereoWish;
  readonly shares?: ShareWish;
  /** Who must hear it: every musician, or these listeners. */
  readonly reach?: "all" | readonly Id[];
  readonly mayLeaveOut?: boolean;
  /** Tap point of its direct out where it has an input of its own. */
  readonly tap?: TapPoint;
  /** Where its send is taken where it lies in a bus. */
  readonly send?: SendTap;
}

/** One microphone or line at the desk, or a stereo channel. */
export interface Channel {
  readonly id: Id;
  /** Channel numbers at the desk: none where not entered, one, or two for a stereo channel on two faders. */
  readonly numbers: readonly number[];
  readonly name: string;
  readonly kind: ChannelKind;
  /** The piece it stands at; null where it has no place at the kit. */
  readonly piece: Id | null;
  /** 2 for a stereo channel: left and right. */
  readonly lines: 1 | 2;
  /** Channel pan. */
  readonly pan: Pan;
  /** Channel fader, dB; null is −∞. */
  readonly fader: Db | null;
  readonly muted: boolean;
  /** Polarity switched. */
  readonly inverted: boolean;
  /** Level while playing, dBFS rms in the console's convention; null where nobody knows. */
  readonly gatedRms: Db | null;
  /** Share of the time in which it plays, 0…1; null takes the table by kind. */
  readonly activity: number | null;
  /** Peak, dBFS; null where nobody knows. */
  readonly peak: Db | null;
  /** Must keep its sides whatever happens to the pair (stereo playback, keys). */
  readonly keepSides: boolean;
  readonly directOut: DirectOut;
  /** Not there where its kind's rule is in force unchanged. */
  readonly rule?: ChannelRule;
  readonly colour: Colour | null;
  /** What the user groups it with ("Rhythm section"); "" for none. */
  readonly group: string;
  readonly extra: readonly ExtraColumn[];
}

/** One channel's way into one bus. */
export interface Send {
  readonly channel: Id;
  readonly on: boolean;
  /** Level of the send, dB; null is −∞. */
  readonly level: Db | null;
  readonly tap: SendTap;
  /** Pan in this bus; null follows the channel pan. */
  readonly pan: Pan | null;
}

/** Where an audio input of the device is fed from: a listener's own mixer, as the ears are, or the outputs of the bus itself. */
export type HearingPoint = "mixer" | "bus";

/**
 * Levels of the sides of a bus as an audio input of the device measured them: dBFS at that input, whose gain nobody
 * knows, sample convention.
 */
export interface BusMeasurement {
  /** Date and time as ISO 8601 writes them, in UTC. */
  readonly at: string;
  readonly from: HearingPoint;
  readonly seconds: Seconds;
  /** Mean over all that time. */
  readonly rms: Sides<Db>;
  readonly peak: Sides<Db>;
  readonly truePeak: Sides<Db>;
}

/** Several channels mixed to one side (mono) or two (a pair). */
export interface Bus {
  readonly id: Id;
  /** Bus numbers at the desk: none where not entered, one, or two for a stereo bus. */
  readonly numbers: readonly number[];
  readonly name: string;
  readonly stereo: boolean;
  readonly sends: readonly Send[];
  /** Bus fader, dB; null is −∞. */
  readonly fader: Db | null;
  /** Further level change on both sides, dB. */
  readonly trim: Db;
  /** Further level change on each side of a stereo bus, dB; a mono bus has none. */
  readonly sideTrim: Sides<Db>;
  /** Polarity switched on a side of a stereo bus; a mono bus has no such switch. */
  readonly sideInverted: Sides<boolean>;
  /** Processing (equaliser, delay) on one side only, so that the sides are no mirror of each other. */
  readonly unevenSides: boolean;
  /** The sides are meant to be patched in reverse order. */
  readonly swapped: boolean;
  /** Folded to mono on purpose: both sides carry the same. */
  readonly folded: boolean;
  /** Loss of a pad or trim between output and receiving input, dB, positive. */
  readonly padDb: Db;
  /** Not there where nobody has measured it. */
  readonly measured?: BusMeasurement;
}

/** The drummer faces with the throne, the audience the stage, performers as set. */
export type ListenerKind = "drummer" | "performer" | "audience";

/** Somebody who hears a feed. The audience is always one of them and hears FOH. */
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
  /** The bus heard; null hears FOH (audience) or no bus. */
  readonly bus: Id | null;
  /** Left and right flipped at this listener's own mixer. */
  readonly flipped: boolean;
  /** Hears both sides folded into one. */
  readonly mono: boolean;
}

/** What one input takes. */
export type Feed =
  | { readonly kind: "channel"; readonly channel: Id; readonly side: "both" | Side }
  | { readonly kind: "bus"; readonly bus: Id; readonly side: Side };

/** One input of the personal monitor system. */
export interface MonitorInput {
  readonly feed: Feed;
  /** Output port of the desk that feeds it; null where not entered. */
  readonly port: number | null;
  readonly on: boolean;
  /** Trim at the monitor system, dB. */
  readonly trim: Db;
}

/** The personal monitor system: its inputs and what its inputs take. */
export interface MonitorSystem {
  /** How many inputs there are. */
  readonly inputCount: number;
  /** In order; null is free. May be longer than `inputCount`: what is over is kept and shown. */
  readonly inputs: readonly (MonitorInput | null)[];
  /** Largest level the receiving input takes, dBu. */
  readonly maxInputDbu: Db;
  readonly link: Link;
  /** Whether the trim of an input lies before its input stage, and so counts against `maxInputDbu`. */
  readonly trimBeforeInput: boolean;
  /** What a listener's own mixer can do with a stereo pair. */
  readonly mixers: { readonly flip: boolean; readonly mono: boolean };
}

/** What the user lets a recommendation do. */
export interface Preferences {
  /** Whose image matters most. */
  readonly first: Id;
  /** Nothing may change at FOH. */
  readonly fohFixed: boolean;
  /** No input that is free may be taken. */
  readonly inputsFixed: boolean;
  /** Headroom wanted at every ceiling, dB. */
  readonly targetHeadroom: Db;
}

/** What the drummer can say of a hit. */
export type Answer = "left" | "middle" | "right" | "nothing" | "unclear";

/** What can be done before a hit, where a hit alone does not tell; what each changes stands in `check/actions.ts`. */
export type Action = "mute-overheads" | "mono" | "first-input" | "balance-left" | "balance-right";

/** One hit of a check at the kit and what was said of it. */
export interface Hit {
  readonly piece: Id;
  readonly answer: Answer;
  /** What was done for it; without one, nothing. */
  readonly action?: Action;
}

/** Data for the estimate of a level at the ear. */
export interface Earphone {
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

/** One channel's figures from a recording. All levels dBFS, sample convention. */
export interface MeasuredChannel {
  readonly channel: Id;
  readonly rms: Db;
  readonly gatedRms: Db;
  readonly peak: Db;
  readonly truePeak: Db;
  readonly fast: Db;
  readonly slow: Db;
  /** Share of the time in which it plays, 0…1; null where an older measurement did not look. */
  readonly activity: number | null;
}

/** Measured figures of one recording, kept without the audio. */
export interface Recording {
  readonly name: string;
  readonly seconds: number;
  readonly channels: readonly MeasuredChannel[];
  /** Correlation of each two channels in the order of `channels`, row by row, −1…1. */
  readonly correlation: readonly (readonly number[])[];
}

/** All that the arithmetic reads: everything the user has said about one band on one evening. */
export interface Setup {
  readonly kit: Kit;
  readonly desk: Desk;
  readonly channels: readonly Channel[];
  readonly buses: readonly Bus[];
  readonly listeners: readonly Listener[];
  readonly monitor: MonitorSystem;
  readonly preferences: Preferences;
  readonly earphone: Earphone | null;
  readonly recording: Recording | null;
}
