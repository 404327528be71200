import "./recordings.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { directed } from "../../core/direction";
import { besideOf } from "../../core/measure/beside";
import type { Sum } from "../../core/setup";
import { counted } from "../../core/words";
import { keepRecording } from "../../document/commands/recording";
import { current } from "../../document/store";
import { toRecording } from "../../measure/recording";
import { Fold } from "../../pieces/fold";
import { Sentences } from "../../pieces/sentences";
import { arrivedRecordings } from "../arrived";
import { BesideTable } from "./beside";
import { Choosing } from "./choosing";
import { InTurn } from "./in-turn";
import { Keep, Kept } from "./keep";
import { LoudestMoment } from "./loudest";
import { type Result, result } from "./measuring";
import { Run } from "./run";
import { addFiles, type Plan } from "./session";
import { TrackTable } from "./track-table";

/** What the figures are called: the file, or the first of them and how many more. */
const recordingName = ({ inputs }: Plan): string => {
  const [first, ...more] = inputs.map((input) => input.name);
  const base = (first ?? "Recording").replace(/\.[^.]+$/, "");
  return more.length === 0 ? base : `${directed(base)} and ${counted(more.length, "more file")}`;
};

/** All that was measured: beside the estimates of the sum, over time, each source by itself. */
const Measured = ({
  sum,
  result: { figures, places, gains, notes, plan },
}: {
  sum: Sum | null;
  result: Result;
}) => {
  const recording = toRecording(recordingName(plan), figures, places);
  const of = sum && besideOf({ ...current.value, recording }, sum, figures, places, gains);
  const apart = keepRecording(recording, true).apply(current.value).sources !== current.value.sources;
  return (
    <InTurn
      parts={[
        () =>
          sum && of ? (
            <BesideTable key="beside" sum={sum} of={of} notes={notes} apart={apart} />
          ) : (
            <Sentences key="notes" look="notice" says={notes} />
          ),
        () => <LoudestMoment key="loudest" figures={figures} places={places} stale={of?.stale ?? false} />,
        () => <TrackTable key="tracks" figures={figures} places={places} />,
        () => <Keep key="keep" recording={recording} />,
      ]}
    />
  );
};

const Body = ({ sum }: { sum: Sum | null }) => {
  const over = useSignal(false);
  useEffect(() => {
    const arrived = arrivedRecordings.value;
    if (arrived.length === 0) return;
    arrivedRecordings.value = [];
    void addFiles(arrived);
  }, [arrivedRecordings.value]);
  const measured = result.value;
  return (
    <div
      role="group"
      aria-label="Recordings"
      class={`stack drop${over.value ? " over" : ""}`}
      onDragOver={(e) => {
        e.preventDefault();
        over.value = true;
      }}
      onDragLeave={() => {
        over.value = false;
      }}
      onDrop={(e) => {
        e.preventDefault();
        over.value = false;
        void addFiles([...(e.dataTransfer?.files ?? [])]);
      }}
    >
      <Choosing />
      <Run sum={sum} />
      {measured ? <Measured sum={sum} result={measured} /> : <Kept />}
    </div>
  );
};

/** Recordings of the sources: the measured truth beside every estimate of a sum. */
export const Recordings = ({ sum }: { sum: Sum | null }) => {
  const kept = current.value.recording;
  return (
    <Fold
      title={kept ? `Measured: ${kept.name}` : "Measure a recording"}
      open={arrivedRecordings.value.length > 0 || result.value !== null}
    >
      {() => <Body sum={sum} />}
    </Fold>
  );
};
