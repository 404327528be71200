import { ANSWER_MODEL } from "../../core/check/answers";
import { MIDDLE_DB, SIDE_DB } from "../../core/position";
import { Model } from "./model";

/** How the check finds a fault, and what it takes for granted. */
export const CheckHelp = () => (
  <>
    <p>
      For every known fault it computes what each ear would get from each piece, and from that the chance of
      each answer: differences under {MIDDLE_DB} dB are heard in the middle, {SIDE_DB} dB fully at one side,
      between them both answers happen. One answer in {1 / ANSWER_MODEL.slip.share} may be a slip. It always
      asks for the hit that tells most.
    </p>
    <p>
      Source: Bayes’ rule and information in bits (textbook); {MIDDLE_DB} dB by Mills 1960; the other shares
      are models, common practice. None of it was measured on this listener.
    </p>
    <Model />
  </>
);
