import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";

/** So many rows are drawn at once without holding up the page. A design choice. */
const AT_ONCE = 64;

/**
 * The first rows of a table of any length, and a button for the rest.
 * @param what the rows are, behind their number: "channels"
 */
export const useFirstRows = <T,>(
  all: readonly T[],
  what: string,
): { readonly rows: readonly T[]; readonly more: ComponentChildren } => {
  const isWhole = useSignal(false);
  if (isWhole.value || all.length <= AT_ONCE) return { rows: all, more: null };
  const more = (
    <button
      type="button"
      onClick={() => {
        isWhole.value = true;
      }}
    >
      Show all {all.length} {what}
    </button>
  );
  return { rows: all.slice(0, AT_ONCE), more };
};
