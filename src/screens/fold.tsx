import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";

/** A card that opens on a tap, or when `open` becomes true; what is in it is made only then. */
export const Fold = (props: { title: string; open?: boolean; children: () => ComponentChildren }) => {
  const open = useSignal(props.open ?? false);
  useEffect(() => {
    if (props.open) open.value = true;
  }, [props.open, open]);
  return (
    <details
      class="card"
      open={open.value}
      onToggle={(e) => {
        open.value = e.currentTarget.open;
      }}
    >
      <summary>{props.title}</summary>
      {open.value ? <div class="stack">{props.children()}</div> : null}
    </details>
  );
};
