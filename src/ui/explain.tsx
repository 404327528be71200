import type { ComponentChildren } from "preact";

/** What a figure is, where it comes from and what it assumes: in the place where it stands, when asked. */
export const Explain = (props: { about: string; children: ComponentChildren }) => (
  <details class="explain">
    <summary>{props.about}</summary>
    <div class="stack small soft">{props.children}</div>
  </details>
);
