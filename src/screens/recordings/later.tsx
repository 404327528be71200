import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";

/** Behind a tap; made only when it is opened, so that what stands in sight is there sooner. */
export const Later = (props: { title: ComponentChildren; children: () => ComponentChildren }) => {
  const open = useSignal(false);
  return (
    <details
      onToggle={(e) => {
        open.value = e.currentTarget.open;
      }}
    >
      <summary>{props.title}</summary>
      {open.value ? <div class="stack">{props.children()}</div> : null}
    </details>
  );
};
