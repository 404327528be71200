import { useEffect } from "preact/hooks";
import { current, undo } from "../document/store";
import { Icon } from "../ui/icon";
import { TOAST_MS, toast } from "./state";

/** The way back from what was just done; none once something else was changed: it would take that back. */
const wayBack = (): (() => void) | null => {
  const back = toast.value?.undo;
  if (typeof back === "function") return back;
  return back && back === current.value ? undo : null;
};

/** What was just done, with its undo; it goes by itself, and the undo of the header stays. */
export const Toast = () => {
  const word = toast.value;
  const back = wayBack();
  useEffect(() => {
    if (word === null) return;
    const timer = setTimeout(() => {
      toast.value = null;
    }, TOAST_MS);
    return () => clearTimeout(timer);
  }, [word]);
  return (
    <div role="status">
      {word === null ? null : (
        <div class="toast">
          <span>{word.says}</span>
          {word.atDesk ? <a href="#desk">What to set at the desk</a> : null}
          {back ? (
            <button
              type="button"
              class="bare"
              onClick={() => {
                toast.value = null;
                back();
              }}
            >
              Undo
            </button>
          ) : null}
          <button
            type="button"
            class="bare"
            aria-label="Close"
            onClick={() => {
              toast.value = null;
            }}
          >
            <Icon name="close" size={18} />
          </button>
        </div>
      )}
    </div>
  );
};
