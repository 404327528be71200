import type { Signal } from "@preact/signals";
import { Icon } from "./icon";

/** Opens and shuts what else can be done with a row, by the name of what the row is of. */
export const MoreButton = ({ name, open }: { name: string; open: Signal<boolean> }) => (
  <button
    type="button"
    class="bare"
    aria-expanded={open.value}
    aria-label={`More for ${name}`}
    onClick={() => {
      open.value = !open.value;
    }}
  >
    <Icon name={open.value ? "up" : "more"} />
  </button>
);
