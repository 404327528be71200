import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";

/** So many rows are drawn at once without holding up the page. A design choice. */
const AT_ONCE = 50;

/** A list of any length: its beginning, and the rest by and by. */
export function Portion<T>(props: {
  items: readonly T[];
  each: (item: T, at: number) => ComponentChildren;
  /** What the rest are, behind their number: "more". */
  what: string;
}) {
  const shown = useSignal(AT_ONCE);
  const rest = props.items.length - shown.value;
  return (
    <>
      <ul class="stack">{props.items.slice(0, shown.value).map(props.each)}</ul>
      {rest > 0 ? (
        <button
          type="button"
          onClick={() => {
            shown.value += AT_ONCE;
          }}
        >
          Show {Math.min(rest, AT_ONCE)} of {rest} {props.what}
        </button>
      ) : null}
    </>
  );
}
