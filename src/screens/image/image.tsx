import { isReversed } from "../../core/patched";
import { imageStatement } from "../../core/statements";
import { swapPair } from "../../document/commands/sums";
import { current, run } from "../../document/store";
import { Explain } from "../../pieces/explain";
import { Icon } from "../../pieces/icon";
import { lazy } from "../../pieces/lazy";
import { Verdict } from "../../pieces/verdict";
import { ListenerPick } from "../listener-pick";
import { sumName } from "../names";
import { chosenListener } from "../state";
import { SumFlags } from "../sum/flags";
import { chosenImage, heardSum } from "./heard";
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
  const sum = heardSum.value;
  if (!sum?.stereo) return null;
  return (
    <button type="button" aria-pressed={isReversed(current.value, sum)} onClick={() => run(swapPair(sum.id))}>
      <span class="row">
        <Icon name="swap" />
        Patch {sumName(sum.id)} in reverse
      </span>
    </button>
  );
};

/** The place for left and right: who hears it right, and the best thing to do about it. */
export const ImageScreen = () => {
  const setup = current.value;
  const listener = chosenListener.value;
  const image = chosenImage.value;
  const sum = heardSum.value;
  if (!listener || !image) return null;
  const { tone, says, more } = imageStatement(setup, listener, image);
  const turn = `${sum && isReversed(setup, sum)} ${listener.flipped} ${listener.id}`;
  return (
    <>
      <Verdict tone={tone} says={says}>
        {more} <SumFlags only={sum?.id ?? null} />
      </Verdict>
      <ListenerPick label="As heard by" />
      <div class="two">
        <div class="stack">
          <ThreadView image={image} listener={listener} says={says} turn={turn} />
          {sum ? <RepairList /> : null}
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
