import { levelOf, levelOfPower } from "../../core/level/decibels";
import { formatNumber } from "../../core/lib/number";
import { TAP_NAMES } from "../../text/taps";
import { capitalised } from "../../text/words";

const change = (level: number): string => `${formatNumber(level, 2)} dB`;

/** What the patch is checked for, and by which rule. */
export const PatchHelp = () => (
  <>
    <p>
      Heard twice: the same channel as a direct out and in a bus. At the same level, time and polarity it
      comes up by 20 log 2 = {change(levelOf(2))}; at opposite polarity it cancels. The figure shown is for
      both up alike at the listener’s mixer, with no delay between them.
    </p>
    <p>
      Tap points. {capitalised(TAP_NAMES["pre-hpf"])}: rumble comes along. {capitalised(TAP_NAMES["pre-eq"])}:
      no EQ and, on most desks, no compressor. {capitalised(TAP_NAMES["pre-fader"])}: processed, and the FOH
      fader does not move it. {capitalised(TAP_NAMES["post-fader"])}: every fader move and mute of FOH is
      heard in the ears.
    </p>
    <p>Source: level arithmetic; what fits which tap point is common practice, no source.</p>
  </>
);

/** What the ways to free inputs lose, and how they are ordered. */
export const WaysHelp = () => (
  <>
    <p>
      To mono: what is in the centre of a pair comes up by 10 log 2 = {change(levelOfPower(2))} against what
      is at one side, and every image goes to the centre. Mixed to a bus: n equally loud channels need 10 log
      n dB of headroom (two {change(levelOfPower(2))}, four {change(levelOfPower(4))}) and can no longer be
      mixed separately.
    </p>
    <p>
      Each way is the best plan with so many inputs fewer in which every channel stays as it is or gives way;
      pins hold. Of two plans the better one loses less of the worst thing on which they differ; of equal ones
      it is the one that changes least.
    </p>
    <p>
      Source: level arithmetic of uncorrelated signals; the order of what is lost is common practice, no
      source.
    </p>
  </>
);
