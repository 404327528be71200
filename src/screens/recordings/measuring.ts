import { computed, signal } from "@preact/signals";
import { gainsInBus, type TrackPlace } from "../../core/measure/bus-gains";
import type { Bus, Id } from "../../core/model/setup";
import type { Sides } from "../../core/model/units";
import { current } from "../../document/store";
import { measure } from "../../measure/client";
import type { Job, Measurement } from "../../measure/protocol";
import { shelf } from "../../shelf/here";
import type { SoundFileNote } from "../../text/sound-files";
import { type MeasuringPlan, plan } from "./session";

/** A measurement, and what was measured. */
export interface MeasuredBus extends Measurement {
  readonly plan: MeasuringPlan;
  readonly job: Job;
  /** Of each track, in their order. */
  readonly places: readonly TrackPlace[];
  /** Of each track into the sides of the bus, at that time. */
  readonly gains: readonly Sides[];
}

const made = signal<{ readonly setup: Id | null; readonly result: MeasuredBus } | null>(null);

/** The measurement that is under way: how far it is, 0…1, and how to end it. */
export const running = signal<{ readonly share: number; readonly cancel: () => void } | null>(null);

/** Why the last attempt gave nothing; empty where it did. */
export const trouble = signal<readonly SoundFileNote[]>([]);

/** The last measurement for the open setup. */
export const result = computed<MeasuredBus | null>(() =>
  made.value?.setup === shelf.openId.value ? made.value.result : null,
);

/** Files or matches were changed after the measurement. */
export const isOutdated = computed(
  () =>
    plan.value !== null &&
    result.value !== null &&
    (JSON.stringify([plan.value.tracks, plan.value.align]) !==
      JSON.stringify([result.value.plan.tracks, result.value.plan.align]) ||
      plan.value.inputs.some((input, at) => input !== result.value?.plan.inputs[at])),
);

/** Measures what is planned through a bus as it stands; what was measured before stays until this is done. */
export const measureThrough = async (bus: Bus | null): Promise<void> => {
  const wanted = plan.value;
  if (!wanted || running.value) return;
  const setup = shelf.openId.value;
  const places = wanted.tracks.map((t) => t.place);
  const gains = gainsInBus(current.value, bus, places);
  const job: Job = {
    inputs: wanted.inputs,
    tracks: wanted.tracks.map(({ input, channel }, at) => ({ input, channel, gains: gains[at] ?? [0, 0] })),
    align: wanted.align,
  };
  const stop = new AbortController();
  const show = (share: number): void => {
    running.value = { share, cancel: () => stop.abort() };
  };
  show(0);
  trouble.value = [];
  try {
    const outcome = await measure(stop.signal, job, { progress: show });
    if (outcome.kind === "refused") trouble.value = outcome.why;
    else made.value = { setup, result: { ...outcome.measurement, plan: wanted, job, places, gains } };
  } catch {
    trouble.value = [{ code: "cancelled" }];
  }
  running.value = null;
};

/** Lets go of the measurement and of the files it was made of. */
export const dropResult = (): void => {
  made.value = null;
  trouble.value = [];
};
