import { printNumber } from "../../core/number";
import type { Ceiling } from "../../core/sum/ceilings";

/** How headroom is counted, and by which rule. */
export const HeadroomHelp = ({ ceilings }: { ceilings: readonly Ceiling[] }) => (
  <>
    <p>
      Ceiling minus likely peak, on the leg that comes closest. The sum clips at 0 dBFS before its trims, the
      output at 0 dBFS after them, the receiving input at its largest level after the pad (here{" "}
      {printNumber(ceilings.find((c) => c.place === "input")?.ceiling ?? 0, 1)} dBFS).
    </p>
    <p>
      Likely peak: the loudest contribution plus the root-sum-square of the rest. On measured drum material it
      lay about 4 dB above the real peak and never more than 0.2 dB under it.
    </p>
    <p>
      Source: EBU R 68 and SMPTE RP 155 for what 0 dBFS is in dBu, else as you set it; the likely peak is a
      working rule, no source.
    </p>
  </>
);
