import type {
  Bus,
  Channel,
  Desk,
  Earphone,
  Kit,
  Listener,
  MonitorSystem,
  Piece,
  Preferences,
  Recording,
  Send,
} from "../core/model/setup";
import type { ComparedValues } from "../text/compared-values";
import type { SetupFile } from "./schema";

/** What has the values of each kind. */
interface Compared {
  readonly setup: SetupFile;
  readonly kit: Kit;
  readonly piece: Piece;
  readonly desk: Desk;
  readonly channel: Channel;
  readonly bus: Bus;
  readonly send: Send;
  readonly listener: Listener;
  readonly monitor: MonitorSystem;
  readonly preferences: Preferences;
  readonly recording: Recording;
  readonly earphone: Earphone;
}

/** Something whose states are compared. */
export type ComparedThing<K extends keyof Compared> = Compared[K];

/** Every value that two states of a thing are compared by, in the order in which differences are named. */
export const COMPARED: {
  readonly [K in keyof Compared]: {
    readonly [F in keyof ComparedValues[K]]-?: (thing: Compared[K]) => ComparedValues[K][F];
  };
} = {
  setup: {
    note: (s) => s.note,
    example: (s) => s.example,
  },
  kit: {
    hand: (k) => k.hand,
    yaw: (k) => k.yaw,
  },
  piece: {
    name: (p) => p.name,
    kind: (p) => p.kind,
    place: (p) => [p.x, p.y],
    limbs: (p) => p.limbs,
    player: (p) => p.player,
  },
  desk: {
    name: (d) => d.name,
    channelCount: (d) => d.channelCount,
    busCount: (d) => d.busCount,
    portCount: (d) => d.portCount,
    bankSize: (d) => d.bankSize,
    port: (d) => [d.portName, d.firstPort],
    busOverloads: (d) => d.busOverloads,
    mutesSends: (d) => d.muteRule.preFaderSends,
    mutesDirectOuts: (d) => d.muteRule.directOuts,
    trimStep: (d) => d.trimStep,
    law: (d) => d.law,
    centreDb: (d) => d.centreDb,
    reference: (d) => d.reference,
    stereoLaw: (d) => d.stereoLaw,
    panStyle: (d) => d.panStyle,
    panSteps: (d) => d.panSteps,
    levelStep: (d) => d.levelStep,
    rms: (d) => d.rms,
    outputDbu: (d) => d.outputDbu,
  },
  channel: {
    name: (c) => c.name,
    numbers: (c) => c.numbers,
    kind: (c) => c.kind,
    piece: (c) => c.piece,
    lines: (c) => c.lines,
    pan: (c) => c.pan,
    fader: (c) => c.fader,
    muted: (c) => c.muted,
    inverted: (c) => c.inverted,
    gatedRms: (c) => c.gatedRms,
    activity: (c) => c.activity,
    peak: (c) => c.peak,
    keepSides: (c) => c.keepSides,
    directOut: (c) => c.directOut,
    rule: (c) => c.rule,
    colour: (c) => c.colour,
    group: (c) => c.group,
    extra: (c) => c.extra,
  },
  bus: {
    name: (b) => b.name,
    stereo: (b) => b.stereo,
    numbers: (b) => b.numbers,
    fader: (b) => b.fader,
    trim: (b) => b.trim,
    trimL: (b) => b.sideTrim[0],
    trimR: (b) => b.sideTrim[1],
    invertedL: (b) => b.sideInverted[0],
    invertedR: (b) => b.sideInverted[1],
    unevenSides: (b) => b.unevenSides,
    swapped: (b) => b.swapped,
    folded: (b) => b.folded,
    padDb: (b) => b.padDb,
    measured: (b) => b.measured,
  },
  send: {
    level: (s) => s.level,
    on: (s) => s.on,
    tap: (s) => s.tap,
    pan: (s) => s.pan,
  },
  listener: {
    name: (l) => l.name,
    kind: (l) => l.kind,
    place: (l) => [l.x, l.y],
    facing: (l) => l.facing,
    bus: (l) => l.bus,
    flipped: (l) => l.flipped,
    mono: (l) => l.mono,
  },
  monitor: {
    inputCount: (m) => m.inputCount,
    maxInputDbu: (m) => m.maxInputDbu,
    link: (m) => m.link,
    trimBeforeInput: (m) => m.trimBeforeInput,
    canFlip: (m) => m.mixers.flip,
    canGoMono: (m) => m.mixers.mono,
  },
  preferences: {
    first: (p) => p.first,
    fohFixed: (p) => p.fohFixed,
    inputsFixed: (p) => p.inputsFixed,
    targetHeadroom: (p) => p.targetHeadroom,
  },
  recording: {
    name: (r) => r.name,
    seconds: (r) => r.seconds,
  },
  earphone: {
    sensitivity: (e) => [e.sensitivity, e.unit],
    impedance: (e) => e.impedance,
    sourceImpedance: (e) => e.sourceImpedance,
    drive: (e) => e.drive,
    isolation: (e) => e.isolation,
    stage: (e) => e.stage,
  },
};
