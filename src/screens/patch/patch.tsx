import type { PatchFigures } from "../../core/patch/figures";
import { counted } from "../../core/words";
import { setSlotCount } from "../../document/commands/slots";
import { current, endDrag, figures } from "../../document/store";
import { Explain } from "../../pieces/explain";
import { lazy } from "../../pieces/lazy";
import { NumberField } from "../../pieces/number-field";
import { type Tone, Verdict } from "../../pieces/verdict";
import { typing } from "../act";
import { RULES } from "../rules";
import { SumFlags } from "../sum/flags";
import { SlotList } from "./slot-list";
import { Unplaced } from "./unplaced";

const headline = ({ usage, flags }: PatchFigures, slotCount: number): { tone: Tone; says: string } => {
  const feeds = counted(usage.used.length, "feed");
  const faults = flags.filter((f) => f.severity === "fault").length;
  if (usage.tooMany > 0)
    return { tone: "wrong", says: `${counted(usage.tooMany, "feed")} too many for ${slotCount} slots` };
  if (usage.used.length === 0) return { tone: "care", says: "Nothing is patched yet" };
  if (faults > 0) return { tone: "wrong", says: `${counted(faults, "fault")} in the patch` };
  return {
    tone: "fine",
    says: `${feeds} ${usage.used.length === 1 ? "fits" : "fit"}: ${counted(usage.free.length, "slot")} free`,
  };
};

const PatchHelp = lazy(async () => (await import("./help")).PatchHelp);
const Flags = lazy(async () => (await import("./flags")).Flags);
const Fits = lazy(async () => (await import("./fits")).Fits);
const Papers = lazy(async () => (await import("../papers/papers")).Papers);

/** The place for the slots: what goes where, whether it fits, what is wrong, and the sheet for the console. */
export const PatchScreen = () => {
  const { monitor } = current.value;
  const { patch } = figures.value;
  const { tone, says } = headline(patch, monitor.slotCount);
  const doubts = patch.flags.length;
  return (
    <>
      <Verdict tone={tone} says={says}>
        {doubts === 0 ? "Nothing to look at." : `${counted(doubts, "thing")} to look at below.`} <SumFlags />
      </Verdict>
      {patch.usage.over.length > 0 ? <Fits /> : null}
      <div class="two">
        <div class="stack">
          <SlotList rows={patch.rows} />
          <div class="fields">
            <NumberField
              rule={RULES.slots}
              label="Slots of the monitor system"
              value={monitor.slotCount}
              step={1}
              onValue={(n) => typing(setSlotCount(n))}
              onDone={endDrag}
            />
          </div>
          <Unplaced usage={patch.usage} />
        </div>
        <div class="stack">
          {doubts === 0 ? null : <Flags flags={patch.flags} />}
          <Explain about="What the patch is checked for">
            <PatchHelp />
          </Explain>
          <Papers />
        </div>
      </div>
    </>
  );
};
