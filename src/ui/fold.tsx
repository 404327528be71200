import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";

/**
 * A part that opens on a tap, or when `open` becomes true; what is in it is worked out and drawn only then.
 * @param look "card" stands by itself on a screen; "plain" stands inside one; "explain" says more of what is above it
 */
export const Fold = (props: {
  title: ComponentChildren;
  look?: "card" | "plain" | "explain";
  open?: boolean;
  children: () => ComponentChildren;
}) => {
  const open = useSignal(props.open ?? false);
  useEffect(() => {
    if (props.open) open.value = true;
  }, [props.open, open]);
  return (
    <details
      class={props.look ?? "card"}
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
