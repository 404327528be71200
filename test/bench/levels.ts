/** What the bench of levels needs, in one module. */
export { activityIn } from "../../src/core/headroom/activity";
export { busFigures } from "../../src/core/headroom/figures";
export { FOUND_ERRORS, levelErrorsOf } from "../../src/core/headroom/level-errors";
export { gainsInBus } from "../../src/core/measure/bus-gains";
export { predictedOf } from "../../src/core/measure/predicted";
export { keepRecording } from "../../src/document/commands/recording";
export { MICROPHONE_COUNTS, templateSetup } from "../../src/document/templates";
export { runJob } from "../../src/measure/engine";
export { toRecording } from "../../src/measure/recording";
