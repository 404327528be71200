import type { Seconds } from "../model/units";
import type { Products } from "./covariance";
import type { MeasuredFigures } from "./figures";
import { BLOCK_STEPS } from "./gate";

const blockLength = ({ course }: Pick<MeasuredFigures, "course">): Seconds => course.step * BLOCK_STEPS;

/** The nearest time before, or at, `from` at which a gating block begins. */
export const blockBegin = (figures: Pick<MeasuredFigures, "course">, from: Seconds): Seconds => {
  const length = blockLength(figures);
  return length * Math.floor(from / length);
};

/**
 * Mean products of each two tracks over a part of a recording, from its gating blocks: exact where the part begins and
 * ends with one. Those of the whole recording where its blocks were too many to keep.
 */
export const productsOver = (figures: MeasuredFigures, from: Seconds, length: Seconds): Products => {
  const { products, blocks, seconds } = figures;
  if (!blocks) return products;
  const size = products.length;
  const block = blockLength(figures);
  const end = Math.min(seconds, from + length);
  const mean = new Float64Array(size);
  for (let b = 0; b * size < blocks.length; b += 1) {
    const within = Math.min(end, (b + 1) * block) - Math.max(from, b * block);
    if (within <= 0) continue;
    for (let p = 0; p < size; p += 1)
      mean[p] = (mean[p] as number) + (within / (end - from)) * (blocks[b * size + p] as number);
  }
  return mean;
};
