import { isReversed } from "../../core/patched";
import { imageStatement } from "../../core/statements";
import { swapPair } from "../../document/commands/sums";
import { current, figures, run } from "../../document/store";
import { Icon } from "../../pieces/icon";
import { Verdict } from "../../pieces/verdict";
import { ListenerPick } from "../listener-pick";
import { chosenListener } from "../state";
import { ImageTable } from "./image-table";
import { Listeners } from "./listeners";
import { Notes } from "./notes";
import { Plans } from "./plans";
import { RepairList } from "./repair-list";
import { ThreadView } from "./thread-view";

/** The place for left and right: who hears it right, and the best thing to do about it. */
export const ImageScreen = () => {
  const setup = current.value;
  const listener = chosenListener.value;
  const at = setup.listeners.findIndex((l) => l.id === listener?.id);
  const image = figures.value.images[at];
  if (!listener || !image) return null;
  const sum = setup.sums.find((s) => s.id === listener.sum && image.hears === "sum");
  const statement = imageStatement(setup, listener, image);
  const reversed = sum !== undefined && isReversed(setup, sum);
  const turn = `${reversed}${listener.flipped}${listener.id}`;
  return (
    <>
      <Verdict tone={statement.tone} says={statement.says}>
        {statement.more}
      </Verdict>
      <ListenerPick label="As heard by" />
      <div class="two">
        <div class="stack">
          <ThreadView image={image} listener={listener} says={statement.says} turn={turn} />
          {sum?.stereo ? (
            <button type="button" class="main" aria-pressed={reversed} onClick={() => run(swapPair(sum.id))}>
              <span class="row">
                <Icon name="swap" />
                {reversed
                  ? `${sum.name} is patched in reverse: patch it straight`
                  : `Patch ${sum.name} in reverse`}
              </span>
            </button>
          ) : null}
          {sum?.stereo ? <RepairList sum={sum} /> : null}
        </div>
        <div class="stack">
          <ImageTable image={image} caption={`Each source as it reaches ${listener.name}`} />
          <Notes />
        </div>
      </div>
      <Listeners />
      <Plans />
    </>
  );
};
