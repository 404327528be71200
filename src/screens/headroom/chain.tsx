import type { Ceiling, Stage } from "../../core/headroom/ceilings";
import { describeCeiling, formatDb } from "../../text/headroom";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";

const HeadroomHelp = lazy(async () => (await import("./help")).HeadroomHelp);

const HEAD: { readonly [place in Stage]: string } = {
  bus: "Bus",
  output: "Output",
  input: "Monitor input",
};

/**
 * Headroom at every ceiling in the order of the chain; the lowest is marked.
 * @param missing peaks that sound and are not entered
 */
export const Chain = (props: { ceilings: readonly Ceiling[]; lowest: Ceiling; missing: number }) => {
  const { ceilings, lowest, missing } = props;
  return (
    <section class="stack" aria-label="Headroom at every ceiling">
      <div class="chain">
        {ceilings.map((c) => (
          <div key={c.place} class={c === lowest ? "lowest" : ""}>
            <h2 class="small soft">{HEAD[c.place]}</h2>
            <p class={`big${c.state === "over" ? " bad" : ""}`}>
              {c.state === "unknown" || c.state === "silent" ? "–" : formatDb(c.headroom)}
              <span class="unit"> dB</span>
            </p>
            <p class="small soft">
              {describeCeiling(c.state, missing)}
              {c === lowest ? ", limiting stage" : ""}
            </p>
          </div>
        ))}
      </div>
      <Explain about="How headroom is counted">
        <HeadroomHelp ceilings={ceilings} />
      </Explain>
    </section>
  );
};
