/*
 * What the worklet uses of its scope (W3C Web Audio API 1.1, AudioWorkletGlobalScope), which no library of TypeScript
 * describes.
 */

declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(
  name: string,
  processor: new () => AudioWorkletProcessor & {
    process(inputs: readonly (readonly Float32Array[])[]): boolean;
  },
): void;
