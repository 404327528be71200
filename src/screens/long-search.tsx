import { useSignal } from "@preact/signals";
import { useLayoutEffect } from "preact/hooks";
import type { SearchFound, SearchInput, SearchName, SearchNews } from "../core/searches";
import { SEARCH_ENDS, SEARCH_LABELS } from "../text/search";
import { Progress } from "../ui/progress";

const newWorker = (): Worker =>
  new Worker(new URL("./worker/search.ts", import.meta.url), { type: "module" });

/** So long what is asked must stay as it is before it is searched, ms: a drag starts no worker at every step. */
const STEADY_MS = 200;

/**
 * A search that would hold up the page: run in a worker as long as this part is shown, with how far it has come and a
 * button that stops it. Begins anew when what is asked changes.
 */
export const LongSearch = <N extends SearchName>(props: {
  name: N;
  /** The same object as long as the same is asked. */
  input: SearchInput<N>;
  onFound: (found: SearchFound<N>) => void;
}) => {
  const { name, input, onFound } = props;
  const label = SEARCH_LABELS[name];
  const state = useSignal<"running" | "stopped" | "failed">("running");
  const share = useSignal<number | null>(null);
  const round = useSignal(0);
  useLayoutEffect(() => {
    state.value = "running";
    share.value = null;
    let worker: Worker | null = null;
    const fail = (): void => {
      state.value = "failed";
    };
    const timer = setTimeout(() => {
      // Stopped before it began, it does not begin.
      if (state.peek() !== "running") return;
      try {
        worker = newWorker();
      } catch {
        fail();
        return;
      }
      worker.onmessage = ({ data }: MessageEvent<SearchNews<N>>) => {
        if ("found" in data) onFound(data.found);
        else share.value = data.share;
      };
      worker.onerror = fail;
      worker.onmessageerror = fail;
      worker.postMessage({ name, input });
    }, STEADY_MS);
    const stopped = state.subscribe((now) => {
      if (now !== "running") worker?.terminate();
    });
    return () => {
      stopped();
      clearTimeout(timer);
      worker?.terminate();
    };
  }, [name, input, round.value]);
  const again = (
    <div class="row">
      <button type="button" onClick={() => (round.value += 1)}>
        Start again
      </button>
    </div>
  );
  if (state.value === "running")
    return (
      <div class="stack" aria-busy="true">
        <p class="soft">{label}…</p>
        <Progress label={label} share={share.value} />
        <div class="row">
          <button
            type="button"
            onClick={() => {
              state.value = "stopped";
            }}
          >
            Stop
          </button>
        </div>
      </div>
    );
  return (
    <div class="stack">
      <p class={state.value === "failed" ? "notice warn" : "soft"} role="status">
        {SEARCH_ENDS[state.value]}
      </p>
      {again}
    </div>
  );
};
