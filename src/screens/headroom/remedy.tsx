import type { Remedy } from "../../core/headroom/remedy";
import type { Bus } from "../../core/model/setup";
import { editBus, lowerSends } from "../../document/commands/buses";
import { current } from "../../document/store";
import {
  describeAll,
  describeLone,
  describeNoTrim,
  describeShortfall,
  describeTrim,
  type RemedyText,
} from "../../text/headroom-remedies";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";
import { runPlanChange } from "../act";

const RemedyHelp = lazy(async () => (await import("./help")).RemedyHelp);

/** One way back, with one tap, and under it what it costs. */
const Way = (props: { text: RemedyText; isMain: boolean; command: Parameters<typeof runPlanChange>[0] }) => (
  <div>
    <button
      type="button"
      class={props.isMain ? "main" : ""}
      onClick={() => runPlanChange(props.command, props.text.done)}
    >
      {props.text.says}
    </button>
    <p class="small soft">{props.text.costs}</p>
  </div>
);

/**
 * What gets back to the target headroom and keeps the balance; each with one tap and its undo.
 * @param missing peaks that sound and are not entered
 */
export const RemedyCard = ({
  bus,
  remedy,
  missing,
}: {
  bus: Bus;
  remedy: Remedy | null;
  missing: number;
}) => {
  if (remedy === null) return null;
  const { trim, all, lone } = remedy;
  const setup = current.value;
  return (
    <section class="card stack" aria-labelledby="remedy">
      <h2 id="remedy">{describeShortfall(remedy, missing)}</h2>
      {lone ? <Way text={describeLone(setup, lone)} isMain command={lowerSends(bus.id, lone.sends)} /> : null}
      {trim.code === "enough" ? (
        <Way text={describeTrim(bus, trim)} isMain={!lone} command={editBus(bus.id, { trim: trim.to })} />
      ) : null}
      <Way
        text={describeAll(setup, bus, all)}
        isMain={!lone && trim.code !== "enough"}
        command={lowerSends(bus.id, all.sends)}
      />
      {trim.code === "enough" ? null : <p class="small soft">{describeNoTrim(trim)}</p>}
      <Explain about="How these are worked out">
        <RemedyHelp />
      </Explain>
    </section>
  );
};
