import { current, readOnly } from "../document/store";
import { shelf, takeOver } from "../shelf/here";
import { isStorageSlow } from "../shelf/patience";
import { lazy } from "../ui/lazy";
import { attempt } from "./attempt";
import { laterNotice, offline } from "./state";

const FileDetails = lazy(async () => (await import("./file-details")).FileDetails);

/** Hands a file to the user; says so where that fails. */
const take = (hand: (way: typeof import("./take-file")) => unknown): Promise<boolean> =>
  attempt("No file made", async () => hand(await import("./take-file")));

const Elsewhere = () =>
  readOnly.value ? (
    <div class="notice warn stack elsewhere">
      <p>Another tab is editing. This one is view-only.</p>
      <button type="button" onClick={() => void takeOver()}>
        Edit here instead
      </button>
    </div>
  ) : null;

/** What is wrong with saving, and what to do; null where nothing is. */
const savingTrouble = (): string | null => {
  const { state, why } = shelf.saving.value;
  const advice = "Keep working, but download the setup before you close this page.";
  if (state === "unavailable")
    return `Nothing can be saved here: ${why}. Nothing saved here earlier is deleted. ${advice}`;
  if (state === "failed") return `Not saved: ${why}. ${advice}`;
  if (!isStorageSlow.value) return null;
  return state === "saving"
    ? `Not saved yet: the browser’s storage has not answered. ${advice}`
    : "The browser’s storage has not answered yet. Another tab of Hatside may be using it.";
};

const Unsaved = () => {
  const trouble = savingTrouble();
  if (trouble === null) return null;
  return (
    <div class="notice bad stack" role="alert">
      <p>{trouble}</p>
      <button type="button" onClick={() => take(({ takeSetup }) => takeSetup(current.value))}>
        Download the setup
      </button>
    </div>
  );
};

const News = () => {
  const [first] = shelf.news.value;
  if (!first) return null;
  const { raw } = first;
  return (
    <div class="notice warn stack" role="alert">
      <p>{first.says}</p>
      {first.why || first.notes.length > 0 ? <FileDetails notes={first.notes} why={first.why} /> : null}
      <div class="row">
        {raw ? (
          <button type="button" onClick={() => take(({ takeRaw }) => takeRaw(raw))}>
            Download the file as it was
          </button>
        ) : null}
        <button
          type="button"
          onClick={() => {
            shelf.news.value = shelf.news.value.slice(1);
          }}
        >
          OK
        </button>
      </div>
    </div>
  );
};

const OtherVersion = () => {
  const { accept, isComing } = offline.value;
  const { state } = shelf.saving.value;
  // What is not safe would be lost; while it is being saved the button stays where it is, and waits for that.
  const isAtRest = state === "failed" || state === "unavailable";
  if (!accept || (isAtRest && shelf.isUnsaved())) return null;
  if (isComing)
    return (
      <p class="notice" role="status">
        Switching versions. This page reloads by itself, usually at once.
      </p>
    );
  return (
    <div class="notice stack">
      <p>The server has another version of Hatside. Nothing changes until you switch.</p>
      <button type="button" onClick={accept}>
        Switch to that version
      </button>
    </div>
  );
};

/** What has to be known before anything else: who edits, what is not safe, what was not read, what is new. */
export const Notices = () => {
  const Later = laterNotice.value;
  return (
    <>
      <Elsewhere />
      <Unsaved />
      <News />
      {Later ? <Later /> : null}
      <OtherVersion />
    </>
  );
};
