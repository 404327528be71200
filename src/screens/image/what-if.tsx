import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Bus, Setup } from "../../core/model/setup";
import type { WhatIf } from "../../core/recommend/model";
import type { Tried } from "../../core/recommend/what-if";
import { describeWhatIf } from "../../text/recommend-why";
import { describeWhatIfs } from "../../text/search";
import { Progress } from "../../ui/progress";

/** How far the facts have been tried, and what was found. */
interface Trying {
  readonly done: number;
  readonly of: number;
  readonly found: readonly WhatIf[];
  readonly state: "running" | "stopped" | "failed" | "done";
}

const START: Trying = { done: 0, of: 1, found: [], state: "running" };

const newWorker = (): Worker =>
  new Worker(new URL("../worker/what-if.ts", import.meta.url), { type: "module" });

/** So long a setup must stay as it is before facts are tried, ms: a drag starts no worker at every step. */
const STEADY_MS = 200;

/** Tries every fact off the page's thread, anew for every setup; ended when the part is left. */
const useWhatIfs = (setup: Setup, bus: Bus) => {
  const trying = useSignal<Trying>(START);
  const worker = useRef<Worker | null>(null);
  const end = (state: Trying["state"]): void => {
    worker.current?.terminate();
    worker.current = null;
    trying.value = { ...trying.peek(), state };
  };
  useLayoutEffect(() => {
    trying.value = START;
    const begin = (): void => {
      const fresh = newWorker();
      worker.current = fresh;
      fresh.onmessage = ({ data }: MessageEvent<Tried>) => {
        const { found } = trying.peek();
        const { done, of } = data;
        trying.value = { done, of, found: data.found ? [...found, data.found] : found, state: "running" };
        if (done === of) end("done");
      };
      fresh.onerror = () => end("failed");
      fresh.postMessage({ setup, bus: bus.id });
    };
    const timer = setTimeout(() => {
      try {
        // Stopped before it began, it does not begin.
        if (trying.peek().state === "running") begin();
      } catch {
        end("failed");
      }
    }, STEADY_MS);
    return () => {
      clearTimeout(timer);
      worker.current?.terminate();
    };
  }, [setup, bus.id]);
  return { trying: trying.value, stop: () => end("stopped") };
};

/** Which single facts would change the recommendation, as they are found. */
export const WhatIfs = ({ setup, bus }: { setup: Setup; bus: Bus }) => {
  const { trying, stop } = useWhatIfs(setup, bus);
  const { state, done, of, found } = trying;
  const says = describeWhatIfs(state, { done, of, found: found.length });
  return (
    <div class="stack" aria-busy={state === "running"}>
      {found.length > 0 ? (
        <ul class="stack">
          {found.map((whatIf) => {
            const { fact, instead } = describeWhatIf(setup, bus, whatIf);
            return (
              <li key={fact}>
                {fact}: <b>{instead}</b>.
              </li>
            );
          })}
        </ul>
      ) : null}
      {state === "running" ? (
        <>
          <Progress label="What-ifs tried" share={done / of} />
          <div class="row">
            <button type="button" onClick={stop}>
              Stop
            </button>
          </div>
        </>
      ) : null}
      {says === "" ? null : <p class={state === "failed" ? "notice warn" : "soft"}>{says}</p>}
    </div>
  );
};
