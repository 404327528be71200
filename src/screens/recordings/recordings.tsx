import "./recordings.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { isolated } from "../../core/lib/direction";
import { predictedOf } from "../../core/measure/predicted";
import type { Bus } from "../../core/model/setup";
import { keepRecording } from "../../document/commands/recording";
import { current } from "../../document/store";
import { toRecording } from "../../measure/recording";
import { describeSoundFile } from "../../text/sound-files";
import { formatCount } from "../../text/words";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { arrivedRecordings } from "../arrived";
import { Choosing } from "./choosing";
import { InTurn } from "./in-turn";
import { Keep, Kept } from "./keep";
import { LoudestMoment } from "./loudest";
import { type MeasuredBus, result } from "./measuring";
import { BesideTable } from "./predicted";
import { Run } from "./run";
import { addFiles, type MeasuringPlan } from "./session";
import { TrackTable } from "./track-table";

/** What the figures are called: the file, or the first of them and how many more. */
const recordingName = ({ inputs }: MeasuringPlan): string => {
  const [first, ...more] = inputs.map((input) => input.name);
  const base = (first ?? "Recording").replace(/\.[^.]+$/, "");
  return more.length === 0 ? base : `${isolated(base)} and ${formatCount(more.length, "more file")}`;
};

/** All that was measured: beside the estimates of the bus, over time, each channel by itself. */
const MeasuredChannel = ({
  bus,
  result: { figures, places, gains, notes, plan },
}: {
  bus: Bus | null;
  result: MeasuredBus;
}) => {
  const says = notes.map(describeSoundFile);
  const recording = toRecording(recordingName(plan), figures, places);
  const of = bus && predictedOf({ ...current.value, recording }, bus, figures, places, gains);
  const apart = keepRecording(recording, true).apply(current.value).channels !== current.value.channels;
  return (
    <InTurn
      parts={[
        () =>
          bus && of ? (
            <BesideTable key="beside" bus={bus} of={of} notes={says} apart={apart} />
          ) : (
            <Sentences key="notes" look="notice" says={says} />
          ),
        () => <LoudestMoment key="loudest" figures={figures} places={places} stale={of?.stale ?? false} />,
        () => <TrackTable key="tracks" figures={figures} places={places} />,
        () => <Keep key="keep" recording={recording} />,
      ]}
    />
  );
};

const Body = ({ bus }: { bus: Bus | null }) => {
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
      <Run bus={bus} />
      {measured ? <MeasuredChannel bus={bus} result={measured} /> : <Kept />}
    </div>
  );
};

/** Recordings of the sources: the measured truth beside every estimate of a bus. */
export const Recordings = ({ bus }: { bus: Bus | null }) => {
  const kept = current.value.recording;
  return (
    <Fold
      title={kept ? `Measured: ${kept.name}` : "Measure a recording"}
      open={arrivedRecordings.value.length > 0 || result.value !== null}
    >
      {() => <Body bus={bus} />}
    </Fold>
  );
};
