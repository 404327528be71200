import { isSwapped } from "../../core/mix/pair-order";
import { swapBus } from "../../document/commands/buses";
import { current, run } from "../../document/store";
import { describeImage } from "../../text/image";
import { describeRecommended } from "../../text/recommend-why";
import { tickUnless } from "../../text/statement";
import { formatCount } from "../../text/words";
import { Explain } from "../../ui/explain";
import { Icon } from "../../ui/icon";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { BusFlags, shortBuses } from "../headroom/issues";
import { ListenerPick } from "../listener-pick";
import { recommendedFor } from "../recommended";
import { busTitle } from "../shown-names";
import { chosenListener } from "../state";
import { fohIssues } from "./foh-issues";
import { chosenImage, heardBus } from "./heard";
import { ThreadView } from "./thread-view";

const ImageHelp = lazy(async () => (await import("./help")).ImageHelp);
const ImageTable = lazy(async () => (await import("./image-table")).ImageTable);
const RepairList = lazy(async () => (await import("./repair-list")).RepairList);
const Listeners = lazy(async () => (await import("./listeners")).Listeners);
const Listen = lazy(async () => (await import("../listen/listen")).Listen);
const Plans = lazy(async () => (await import("./plans")).Plans);
const Notes = lazy(async () => (await import("./notes")).Notes);
const LawsCompare = lazy(async () => (await import("./laws-compare")).LawsCompare);

const SwapButton = () => {
  const bus = heardBus.value;
  if (!bus?.stereo) return null;
  return (
    <button type="button" aria-pressed={isSwapped(current.value, bus)} onClick={() => run(swapBus(bus.id))}>
      <span class="row">
        <Icon name="swap" />
        Swap {busTitle(bus.id)} L/R
      </span>
    </button>
  );
};

/** The place for left and right: who hears it right, and the best thing to do about it. */
export const ImageScreen = () => {
  const setup = current.value;
  const listener = chosenListener.value;
  const image = chosenImage.value;
  const bus = heardBus.value;
  if (!listener || !image) return null;
  const { tone, says, more } = describeImage(setup, listener, image);
  const only = bus?.id ?? null;
  const atFoh = fohIssues.value.count;
  const recommended = bus && recommendedFor(setup, bus);
  const isAdvised = (recommended?.ranked[0]?.steps.length ?? 0) > 0;
  // Until it is worked out nobody knows that nothing is to be done.
  const isOpen = isAdvised || recommended === null || atFoh > 0 || shortBuses(only).length > 0;
  const turn = `${bus && isSwapped(setup, bus)} ${listener.flipped} ${listener.id}`;
  return (
    <>
      <div class="views">
        <div class="stack">
          <Verdict tone={tickUnless(isOpen, tone)} says={says}>
            {more} <BusFlags only={only} />
            {tone === "fine" && bus && recommended && isAdvised
              ? ` ${describeRecommended(bus, recommended.advice)}`
              : ""}
            {atFoh > 0 ? ` ${formatCount(atFoh, "issue")} at FOH, listed below.` : ""}
          </Verdict>
          <ListenerPick label="As heard by" />
        </div>
        <div>
          <ThreadView image={image} listener={listener} says={says} turn={turn} />
        </div>
        <div class="stack">
          {bus ? <RepairList /> : null}
          <SwapButton />
        </div>
        <div class="stack">
          <ImageTable image={image} listener={listener} />
          <Explain about="What counts as the right side">
            <ImageHelp />
          </Explain>
          <Notes />
        </div>
      </div>
      <Listen />
      <Listeners />
      <Plans />
      <LawsCompare />
    </>
  );
};
