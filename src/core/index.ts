/**
 * The surface of the arithmetic: where a question about a setup is asked, and the arithmetic of the trade that its figures
 * rest on. Everything takes plain data and gives numbers and codes; the docstring of each says what. The app imports from
 * the files themselves, so that each part is loaded when it is needed; tests and benches may take it from here.
 */

export { freeingQuestion, waysToFree } from "./allocate/free";
export { allocate } from "./allocate/plans";
export { problemOf } from "./allocate/problem";
export { whatIf } from "./allocate/whatif";
export { arePlansShort, isCheckShort, isRecommendationShort } from "./at-once";
// What is wrong: at the kit, on the way to somebody's ears, at the switches.
export { checkOf } from "./check/check";
export { decide } from "./check/decide";
export { sharesOf } from "./check/responses";
// A setup and its figures, computed when somebody looks.
export { evaluate } from "./evaluate";
export { allowedTime, perVolt } from "./headroom/earphone";
export { busFigures } from "./headroom/figures";
export { playablePeak } from "./headroom/playable";
// What the phone hears through its input.
export { hearingOf } from "./hear/hearing";
export { hitFinder } from "./hear/hit-finder";
export { readingsOf } from "./hear/law";
export { pairMeter } from "./hear/pair-meter";
export { recordHeard } from "./hear/record";
export { stateOf } from "./hear/state-of";
export { steadyMeter } from "./hear/steady-meter";
export { deskList, deskMoves } from "./inputs/desk-list";
export { patchFigures } from "./inputs/figures";
export { fohTakes } from "./inputs/foh-reach";
export { patchIssues } from "./inputs/issues";
export { chainOf, traceOn } from "./inputs/trace";
export {
  convertRms,
  dbuOfDbv,
  dbuOfVolts,
  dbvOfDbu,
  dbvOfVolts,
  fullScaleSine,
  outputDbuOf,
  peakOfSine,
  voltsOfDbu,
  voltsOfDbv,
} from "./level/analog";
export {
  correlatedLevelOf,
  exposureLevel,
  phaseSum,
  timeAverage,
  withoutBackground,
} from "./level/arithmetic";
// Arithmetic of levels by the standards and handbooks of the trade, whole: some of it is shown nowhere yet.
export { coherentSum, energySum, gainOf, levelOf, levelOfPower, powerOf } from "./level/decibels";
export { bandFrequency, POLES, weightingA, weightingC } from "./level/weighting";
export { predictedOf } from "./measure/predicted";
export { mixedChannelsOf } from "./mix/bus";
export type { Setup } from "./model/setup";
export { compareLaws } from "./pan/compare";
export { identifyLaw } from "./pan/identify";
// The parts that figures are made of; published values are held against each by itself.
export { panGains } from "./pan/laws";
export { stereoGains } from "./pan/stereo";
export { reasonsFor } from "./recommend/reasons";
// What to do: the image, the monitor inputs, and what to set at the desk.
export { recommend } from "./recommend/recommend";
export { whatIfs } from "./recommend/what-if";
export { SEARCHES } from "./searches";
export { fohPanIssues } from "./stereo/foh-pans";
export { imageOf, imagesOf, listenerImages } from "./stereo/image";
export { overheadIssues } from "./stereo/overheads";
