import type { FixedKind } from "../core/model/kinds";
import type { Desk, Earphone, Kit, Listener, MonitorSystem, Preferences } from "../core/model/setup";
import { FORMAT, type SetupFile, VERSION } from "./schema";

/** A desk as it begins; invented typical figures, to be replaced by those of the data sheet. */
export const BLANK_DESK: Desk = {
  name: "",
  channelCount: 48,
  busCount: 16,
  portCount: 16,
  bankSize: 8,
  portName: "Out",
  firstPort: 1,
  busOverloads: false,
  muteRule: { preFaderSends: false, directOuts: ["post-fader"] },
  trimStep: 0.5,
  law: "sine",
  centreDb: 3,
  reference: "sides",
  stereoLaw: "balance-linear",
  panStyle: "steps",
  panSteps: 100,
  levelStep: 0.1,
  rms: "sample",
  outputDbu: 18,
};

/** A monitor system as it begins: 16 free inputs, common practice; the largest input level is an invented typical one. */
export const BLANK_MONITOR: MonitorSystem = {
  inputCount: 16,
  inputs: Array(16).fill(null),
  maxInputDbu: 20,
  link: "analog",
  trimBeforeInput: false,
  mixers: { flip: true, mono: true },
};

/** Earphones as the estimate begins: invented typical figures, to be replaced by those of the data sheet. */
export const TYPICAL_EARPHONE: Earphone = {
  unit: "dB/mW",
  sensitivity: 108,
  impedance: 32,
  sourceImpedance: 1,
  drive: 0.1,
  isolation: 20,
  stage: 95,
};

/** The audience in front, facing the stage. */
export const AUDIENCE: Listener = {
  id: "l1",
  name: "Audience",
  kind: "audience",
  x: 0,
  y: 8,
  facing: 180,
  bus: null,
  flipped: false,
  mono: false,
};

/** The drummer on the throne, facing the audience. */
export const DRUMMER: Listener = { ...AUDIENCE, id: "l2", name: "Drummer", kind: "drummer", y: 0, facing: 0 };

/** Whom every setup has. */
export const ALWAYS_THERE: { readonly [kind in FixedKind]: Listener } = {
  audience: AUDIENCE,
  drummer: DRUMMER,
};

/** Nothing at FOH may change, free inputs may be taken; 6 dB of headroom, common practice. */
export const BLANK_PREFERENCES: Preferences = {
  first: DRUMMER.id,
  fohFixed: true,
  inputsFixed: false,
  targetHeadroom: 6,
};

const BLANK_KIT: Kit = { hand: "right", yaw: 0, pieces: [] };

/** A setup with nothing in it but whom every one has. */
export const blankSetup = (name = "New setup"): SetupFile => ({
  format: FORMAT,
  version: VERSION,
  name,
  note: "",
  example: false,
  kit: BLANK_KIT,
  desk: BLANK_DESK,
  channels: [],
  buses: [],
  listeners: Object.values(ALWAYS_THERE),
  monitor: BLANK_MONITOR,
  preferences: BLANK_PREFERENCES,
  earphone: null,
  recording: null,
  check: null,
  lineCheck: {},
});
