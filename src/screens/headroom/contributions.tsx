import type { BusFigures } from "../../core/headroom/figures";
import type { SideFigures } from "../../core/headroom/side";
import { formatPercent } from "../../core/lib/number";
import type { Bus } from "../../core/model/setup";
import { type Bar, Bars } from "../../ui/bars";
import { Explain } from "../../ui/explain";
import { useFirstRows } from "../../ui/first-rows";
import { channelTitle } from "../shown-names";
import { SharesHelp } from "./help";

const barsOf = (side: SideFigures): Bar[] =>
  side.contributions
    .map((c) => ({
      id: c.channel,
      name: channelTitle(c.channel),
      shares: [c.energyShare, c.peakShare],
      texts: [formatPercent(c.energyShare), formatPercent(c.peakShare)],
      marked: c.channel === side.costliest.peak?.channel,
    }))
    .sort((a, b) => (b.shares[1] ?? 0) - (a.shares[1] ?? 0));

const SideBars = ({ name, side }: { name: string; side: SideFigures }) => {
  const { rows, more } = useFirstRows(barsOf(side), "channels");
  return (
    <>
      <Bars caption={name} heads={["Channel", "share of RMS", "share of peak"]} mark="loudest" bars={rows} />
      {more}
    </>
  );
};

/** Which channel takes how much of each side, in energy and in peak: whose send costs most. */
export const ContributionBars = ({ bus, figures }: { bus: Bus; figures: BusFigures }) => {
  const sides = bus.stereo
    ? ([
        ["L", figures.sides[0]],
        ["R", figures.sides[1]],
      ] as const)
    : ([["Bus", figures.mono]] as const);
  return (
    <section class="stack" aria-labelledby="shares">
      <h2 id="shares">Loudest contributors</h2>
      {sides.map(([name, side]) => (
        <SideBars key={name} name={name} side={side} />
      ))}
      <Explain about="What the shares are">
        <SharesHelp />
      </Explain>
    </section>
  );
};
