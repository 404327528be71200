import { ANSWER_MODEL } from "../../core/check/answers";
import { ELSE_PRIOR } from "../../core/check/elsewise";
import { CLOSE, LEAST_HITS, SURE, SURE_DESPITE, SURE_UNKNOWN } from "../../core/check/judge";
import { formatPercent } from "../../core/lib/number";
import { CENTRE_DB, SIDE_DB } from "../../core/stereo/position";
import { Model } from "./model";

/** How the check finds a fault, and what it takes for granted. */
export const CheckHelp = () => (
  <>
    <p>
      For every known fault it computes what each ear would get from each piece, and from that the chance of
      each answer: differences under {CENTRE_DB} dB are heard in the middle, {SIDE_DB} dB fully at one side,
      between them both answers happen. One answer in {1 / ANSWER_MODEL.slip.share} may be a slip. It always
      asks for the hit that tells most. The bar is the share of the first uncertainty that is gone.
    </p>
    <p>
      Source: Bayes’ rule and information in bits (textbook); {CENTRE_DB} dB by Mills 1960; the other shares
      are models, common practice. None of it was measured on this listener.
    </p>
    <Model />
  </>
);

/** What the percentages of a verdict are, and from which on there is one. */
export const SureHelp = () => (
  <>
    <p>
      Sure: the chance of the verdict after all hits, against every other known fault and something unknown.
      Faults that the ears cannot tell apart share one chance. Before the first hit “as planned” and every
      kind of fault weigh the same, both sides of a kind together, each channel by itself; something unknown
      has {formatPercent(ELSE_PRIOR)}.
    </p>
    <p>
      A verdict takes {LEAST_HITS} hits and {formatPercent(SURE)}, or {formatPercent(SURE_DESPITE)} where an
      answer speaks against it; that it fits no fault takes {formatPercent(SURE_UNKNOWN)}. Else it ends when
      the hits run out. What is next likeliest is named from {formatPercent(CLOSE)} on.
    </p>
    <p>
      Source: Bayes’ rule (textbook); the weights are common practice, no source. From where on it is sure was
      tuned by simulation; the most hits, and what is still named, are design choices.
    </p>
  </>
);
