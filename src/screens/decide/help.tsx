import type { AllocationKind } from "../../core/allocate/rules";
import { KIND_RULES, KINDS_IN_ORDER } from "../../core/allocate/rules";
import { CHANNEL_KINDS, PIECE_KINDS } from "../../core/model/kinds";

const NAMES: { readonly [kind in AllocationKind]: string } = {
  ...CHANNEL_KINDS,
  kick: PIECE_KINDS.kick,
  snare: PIECE_KINDS.snare,
};

/** What each kind of channel asks for, in the order of the inputs. */
export const DecideHelp = () => (
  <>
    <p>
      Of two plans the better one loses less of the worst thing on which they differ: first that everybody
      hears what they must, then inputs of their own, then stereo. The search is exact: no other plan loses
      less.
    </p>
    <dl>
      {KINDS_IN_ORDER.map((kind) => (
        <div key={kind}>
          <dt>
            <b>{NAMES[kind]}</b>
          </dt>
          <dd>{KIND_RULES[kind].why}</dd>
        </div>
      ))}
    </dl>
    <p>Common practice, no source.</p>
  </>
);
