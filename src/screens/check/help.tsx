import { CLOSE, LEAST_HITS } from "../../core/check/decide";
import { FAULTS } from "../../core/check/faults";
import { ASKED_ABOUT, ENOUGH, ENOUGH_PLANNED } from "../../core/check/leading";
import { UNEXPLAINED_PRIOR } from "../../core/check/unexplained";
import { formatPercent } from "../../core/lib/number";
import { Model } from "./model";

/** How the check finds a fault, and what it takes for granted. */
export const CheckHelp = () => (
  <>
    <p>
      For every known fault the check computes what each ear would get from each drum, through its own
      microphone and through the overheads, and from that the chance of each answer. How wide this listener’s
      middle is, a weaker ear, the “wrong button” rate, and whether they ever say “can’t place it” are not
      known: they are inferred together with the fault. It always asks for the hit that tells it most. Where
      only an action tells (“mute the overheads”, listening with one ear), it asks for that first. The bar
      shows how much of the uncertainty at the start is gone.
    </p>
    <p>
      Source: Bayes’ rule and expected information (textbook); the grid of listeners as in the psi method,
      Kontsevich and Tyler, Vision Research 39 (1999), cited from memory; all chances are models, common
      practice. None of it was measured on this listener.
    </p>
    <Model />
  </>
);

/** What the percentages of a verdict are, and from which on there is one. */
export const SureHelp = () => (
  <>
    <p>
      The percentage is the chance of the verdict after all hits, against every other known fault and an
      unknown one. Faults that ears cannot tell apart share one chance. Before the first hit every kind of
      fault weighs the same, “as planned” as much as {FAULTS.planned.weight} of them, and an unknown fault has{" "}
      {formatPercent(UNEXPLAINED_PRIOR)}.
    </p>
    <p>
      A fault takes {LEAST_HITS} hits and {formatPercent(ENOUGH)}. “As planned” takes{" "}
      {formatPercent(ENOUGH_PLANNED)}, and answers that fit every other fault at most{" "}
      {formatPercent(ASKED_ABOUT)} as well. What is next likeliest is named from {formatPercent(CLOSE)} on.
      When no hit would tell enough any more, the check ends and names what is left.
    </p>
    <p>
      Source: Bayes’ rule (textbook); the weights are common practice, no source. When it stops was tuned by
      simulation; the most hits, and what is still named, are design choices.
    </p>
  </>
);
