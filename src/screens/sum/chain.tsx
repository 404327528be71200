import { printNumber } from "../../core/number";
import type { Ceiling, CeilingPlace } from "../../core/sum/ceilings";
import { Explain } from "../../pieces/explain";
import { db } from "./words";

const HEAD: { readonly [place in CeilingPlace]: string } = {
  sum: "Sum",
  output: "Output",
  input: "Input",
};

const NOTE: { readonly [state in Ceiling["state"]]: string } = {
  over: "over",
  "inside margin": "inside the margin",
  fine: "fine",
  silent: "silent",
  unknown: "not known",
};

/** Headroom at every ceiling in the order of the chain; the lowest is marked. */
export const Chain = ({ ceilings, lowest }: { ceilings: readonly Ceiling[]; lowest: Ceiling }) => (
  <section class="stack" aria-label="Headroom at every ceiling">
    <div class="chain">
      {ceilings.map((c) => (
        <div key={c.place} class={c === lowest ? "lowest" : ""}>
          <h2 class="small soft">{HEAD[c.place]}</h2>
          <p class={`big${c.state === "over" ? " bad" : ""}`}>
            {c.state === "unknown" || c.state === "silent" ? "–" : db(c.headroom)}
            <span class="unit"> dB</span>
          </p>
          <p class="small soft">
            {NOTE[c.state]}
            {c === lowest ? ", lowest" : ""}
          </p>
        </div>
      ))}
    </div>
    <Explain about="How headroom is counted">
      <p>
        Ceiling minus likely peak, on the leg that comes closest. The sum clips at 0 dBFS before its trims,
        the output at 0 dBFS after them, the receiving input at its largest level after the pad (here{" "}
        {printNumber(ceilings.at(-1)?.ceiling ?? 0, 1)} dBFS).
      </p>
      <p>
        Likely peak: the loudest contribution plus the root-sum-square of the rest. On measured drum material
        it lay about 4 dB above the real peak and never more than 0.2 dB under it.
      </p>
    </Explain>
  </section>
);
