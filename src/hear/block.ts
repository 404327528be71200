/** Samples of both channels of an input, on their way to be measured. */
export interface PairBlock {
  /** The left channel, then as many of the right one. Where the input has one channel, it stands in both. */
  readonly samples: Float32Array<ArrayBuffer>;
  /** How many channels the input has. */
  readonly channels: number;
  /** What came before this block was lost: the device was too slow. */
  readonly isAfterGap: boolean;
}

/** Frames of a block: 23 ms at 44.1 kHz. A design choice: short against a hit, long against the cost of a message. */
export const BLOCK_FRAMES = 1024;

/** What a worklet is begun with: the line on which its blocks go out and their arrays come back to be filled again. */
export interface TapBegin {
  readonly line: MessagePort;
}
