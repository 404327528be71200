import type { Bus } from "../../core/model/setup";
import { describeSoundFile } from "../../text/sound-files";
import { Progress } from "../../ui/progress";
import { isOutdated, measureThrough, result, running, trouble } from "./measuring";
import { hindrances, plan } from "./session";

const Measuring = () => {
  const now = running.value;
  if (!now) return null;
  return (
    <div class="stack">
      <p role="status">Measuring …</p>
      <Progress label="Measured so far" share={now.share} />
      <div class="row">
        <button type="button" onClick={now.cancel}>
          Cancel measuring
        </button>
      </div>
    </div>
  );
};

/** Measures and leads to what came out: it stands where the list of files was. */
const measureAndShow = async (bus: Bus | null): Promise<void> => {
  await measureThrough(bus);
  setTimeout(() => document.getElementById("beside")?.scrollIntoView());
};

/** Measures what is chosen: progress, the way out, and what stood in the way. */
export const Run = ({ bus }: { bus: Bus | null }) => {
  const wanted = plan.value;
  const ready = wanted !== null && hindrances.value.length === 0;
  const count = wanted?.tracks.length ?? 0;
  const fresh = result.value === null || isOutdated.value;
  return (
    <>
      {running.value ? (
        <Measuring />
      ) : ready ? (
        <div class="row">
          <button type="button" class={fresh ? "main" : ""} onClick={() => void measureAndShow(bus)}>
            {result.value ? "Measure again" : `Measure ${count} ${count === 1 ? "track" : "tracks"}`}
          </button>
        </div>
      ) : null}
      <div role="status">
        {trouble.value.map(describeSoundFile).map((line) => (
          <p class="notice" key={line}>
            {line}
          </p>
        ))}
        {isOutdated.value && !running.value ? (
          <p class="notice warn">
            Files or matches have changed since: the figures below are from before the change.
          </p>
        ) : null}
      </div>
    </>
  );
};
