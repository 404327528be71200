import type { ComponentChildren } from "preact";
import type { Statement as Judged } from "../core/statements";
import { Icon, type IconName } from "./icon";

/** How a statement is meant: all well, look here, or wrong. */
export type Tone = Judged["tone"];

const CLASS: { readonly [tone in Tone]: string } = { fine: "good", care: "soft", wrong: "bad" };
const ICON: { readonly [tone in Tone]: IconName } = { fine: "fine", care: "care", wrong: "wrong" };

interface Stated {
  readonly tone: Tone;
  readonly says: string;
  readonly children?: ComponentChildren;
}

/** A main statement within a part that is read out already. */
export const Statement = (props: Stated) => (
  <div class="verdict">
    <span class={CLASS[props.tone]}>
      <Icon name={ICON[props.tone]} size={28} />
    </span>
    <h1>{props.says}</h1>
    {props.children ? <p>{props.children}</p> : null}
  </div>
);

/** The main statement of a screen, in plain words; read out when it changes. */
export const Verdict = (props: Stated) => (
  <div role="status">
    <Statement {...props} />
  </div>
);
