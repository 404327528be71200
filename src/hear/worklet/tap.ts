import type { TapBegin } from "../block";
import { type Gatherer, gatherer } from "./gather";

/** Hands what an input brings on in blocks, and no more: it runs where the sound does, and must never be late. */
class Tap extends AudioWorkletProcessor {
  #gatherer: Gatherer | null = null;
  constructor() {
    super();
    this.port.onmessage = ({ data: { line } }: MessageEvent<TapBegin>) => {
      const blocks = gatherer((block) => line.postMessage(block, [block.samples.buffer]));
      line.onmessage = ({ data }: MessageEvent<Float32Array<ArrayBuffer>>) => blocks.giveBack(data);
      this.#gatherer = blocks;
    };
  }
  process([input = []]: readonly (readonly Float32Array[])[]): boolean {
    this.#gatherer?.take(input);
    return true;
  }
}

registerProcessor("tap", Tap);
