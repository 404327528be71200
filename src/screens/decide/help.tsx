import { KINDS_IN_ORDER } from "../../core/allocate/rules";
import { ALLOCATION_KINDS, KIND_REASONS } from "../../text/rules";

/** What each kind of channel asks for, in the order of the inputs. */
export const DecideHelp = () => (
  <>
    <p>
      Of two plans the better one loses less of the worst thing on which they differ: first that everybody
      hears what they must, then inputs of their own, then stereo. The search is exact: no other plan loses
      less.
    </p>
    <p>A click shares with nobody. A channel that keeps L/R must be in stereo; change that under Channels.</p>
    <p>Within a family, channels of one group come together: two kits, the trumpets.</p>
    <dl>
      {KINDS_IN_ORDER.map((kind) => (
        <div key={kind}>
          <dt>
            <b>{ALLOCATION_KINDS[kind]}</b>
          </dt>
          <dd>{KIND_REASONS[kind]}</dd>
        </div>
      ))}
    </dl>
    <p>Common practice, no source.</p>
  </>
);
