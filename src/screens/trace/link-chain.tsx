import type { TraceLink } from "../../core/inputs/trace-links";
import { current } from "../../document/store";
import { describeBreak, describeLink } from "../../text/trace-links";

/** What is known of a link: the signal has passed it, it may be the broken one, or it lies behind that. */
type LinkState = "passed" | "suspect" | "silent";

const STATES: { readonly [state in LinkState]: string } = {
  passed: "✓ signal",
  suspect: "?",
  silent: "no signal",
};
const SPOKEN: { readonly [state in LinkState]: string } = {
  passed: "signal",
  suspect: "may be the fault",
  silent: "no signal",
};

const stateOf = (at: number, first: number, last: number): LinkState =>
  at < first ? "passed" : at > last ? "silent" : "suspect";

/** The whole chain, link by link, with what the plan says of each. */
export const LinkChain = ({
  chain,
  suspects,
}: {
  chain: readonly TraceLink[];
  suspects: readonly TraceLink[];
}) => {
  const [start, end] = [suspects[0], suspects.at(-1)];
  const first = start ? chain.indexOf(start) : 0;
  const last = end ? chain.indexOf(end) : chain.length - 1;
  return (
    <section class="stack" aria-labelledby="trace-chain">
      <h2 id="trace-chain">The chain, as planned</h2>
      <ol class="links">
        {chain.map((link, at) => {
          const { name, value } = describeLink(current.value, link);
          const state = stateOf(at, first, last);
          const why = describeBreak(current.value, link);
          return (
            <li key={link.code} class={`${state}${link.broken ? " broken" : ""}`}>
              <span>
                <b>{name}</b> <span class="soft">{value}</span>
              </span>
              <span class="small" aria-hidden="true">
                {STATES[state]}
              </span>
              <span class="hidden-visually">{SPOKEN[state]}</span>
              {why ? <span class="why small bad">{why}</span> : null}
            </li>
          );
        })}
      </ol>
    </section>
  );
};
