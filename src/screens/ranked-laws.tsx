import type { LawFit } from "../core/pan/identify";
import { editDesk } from "../document/commands/settings";
import { describeRuledOut, formatLawFit } from "../text/law-readings";
import { formatCount } from "../text/words";
import { Fold } from "../ui/fold";
import { Sentences } from "../ui/sentences";
import { runWithWord } from "./act";

/** Takes a law into the plan; the desk's own centre drop to a tenth of a dB. */
const take = ({ law, reference, centre }: LawFit): void => {
  const drop = centre ? { centreDb: Math.round(5 * (centre.low + centre.high)) / 10 } : {};
  runWithWord(editDesk({ law, reference, ...drop }), "The plan now has this pan law");
};

/** The laws that fit, each to be taken, and behind a tap those that are ruled out. */
export const RankedLaws = ({ ranked }: { ranked: readonly LawFit[] }) => {
  const out = ranked.filter(({ fits }) => !fits);
  return (
    <>
      {ranked
        .filter(({ fits }) => fits)
        .map((fit) => (
          <button type="button" key={`${fit.law} ${fit.reference}`} onClick={() => take(fit)}>
            Use {formatLawFit(fit)}
          </button>
        ))}
      {out.length === 0 ? null : (
        <Fold title={`${formatCount(out.length, "law")} ruled out`} look="plain">
          {() => <Sentences says={out.map(describeRuledOut)} />}
        </Fold>
      )}
    </>
  );
};
