import type { ComponentChildren } from "preact";
import type { Tone } from "../text/statement";
import { Icon, type IconName } from "./icon";

const CLASS: { readonly [tone in Tone]: string } = { fine: "good", care: "soft", wrong: "bad" };
const ICON: { readonly [tone in Tone]: IconName } = { fine: "fine", care: "care", wrong: "wrong" };

/** A main statement within a part that is read out already. */
export const Stated = (props: { tone: Tone; says: string; children?: ComponentChildren }) => (
  <div class="verdict">
    <span class={CLASS[props.tone]}>
      <Icon name={ICON[props.tone]} size={28} />
    </span>
    <h1>{props.says}</h1>
    {props.children ? <p>{props.children}</p> : null}
  </div>
);

/** The main statement of a screen, in plain words; read out when it changes. */
export const Verdict = (props: Parameters<typeof Stated>[0]) => (
  <div role="status">
    <Stated {...props} />
  </div>
);
