import { useEffect } from "preact/hooks";
import { undo } from "../document/store";
import { Icon } from "../pieces/icon";
import { toast } from "./state";

const STAYS_MS = 8000;

/** What was just done, with its undo; it goes by itself, and the undo of the header stays. */
export const Toast = () => {
  const word = toast.value;
  useEffect(() => {
    if (word === null) return;
    const timer = setTimeout(() => {
      toast.value = null;
    }, STAYS_MS);
    return () => clearTimeout(timer);
  }, [word]);
  return (
    <div role="status">
      {word === null ? null : (
        <div class="toast">
          <span>{word.says}</span>
          {word.undo ? (
            <button
              type="button"
              class="bare"
              onClick={() => {
                toast.value = null;
                if (word.undo === true) undo();
                else if (word.undo) word.undo();
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
