import { printPercent } from "../../core/number";
import type { Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import type { LegFigures } from "../../core/sum/leg";
import { type Bar, Bars } from "../../pieces/bars";
import { Explain } from "../../pieces/explain";
import { sourceName } from "../names";
import { SharesHelp } from "./help";

const barsOf = (leg: LegFigures): Bar[] =>
  leg.contributions
    .map((c) => ({
      id: c.source,
      name: sourceName(c.source),
      shares: [c.energyShare, c.peakShare],
      texts: [printPercent(c.energyShare), printPercent(c.peakShare)],
      marked: c.source === leg.costliest.peak?.source,
    }))
    .sort((a, b) => (b.shares[1] ?? 0) - (a.shares[1] ?? 0));

/** Which source takes how much of each leg, in energy and in peak: whose send costs most. */
export const ContributionBars = ({ sum, figures }: { sum: Sum; figures: SumFigures }) => {
  const legs = sum.stereo
    ? ([
        ["Left leg", figures.legs[0]],
        ["Right leg", figures.legs[1]],
      ] as const)
    : ([["The leg", figures.mono]] as const);
  return (
    <section class="stack" aria-labelledby="shares">
      <h2 id="shares">Whose send costs most</h2>
      {legs.map(([name, leg]) => (
        <Bars
          key={name}
          caption={name}
          heads={["Source", "of the energy", "of the peak"]}
          mark="costs most"
          bars={barsOf(leg)}
        />
      ))}
      <Explain about="What the shares are of">
        <SharesHelp />
      </Explain>
    </section>
  );
};
