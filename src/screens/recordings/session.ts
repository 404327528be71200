import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { TrackPlace } from "../../core/measure/bus-gains";
import type { Id } from "../../core/model/setup";
import { current } from "../../document/store";
import { askLook } from "../../measure/client";
import { prepareInput } from "../../measure/decode";
import { type InputFacts, readFacts } from "../../measure/facts";
import { type LineUp, lineUp } from "../../measure/line-up";
import { matchTracks } from "../../measure/match";
import type { Input, Job } from "../../measure/protocol";
import { shelf } from "../../shelf/here";
import type { SoundFileNote } from "../../text/sound-files";

/** A file that was chosen and can be read. */
interface Chosen {
  /** Its number in the order of choosing, never used twice. */
  readonly id: number;
  readonly input: Input;
  readonly facts: InputFacts;
}

/** One channel of a chosen file, and what it is taken for. */
export interface Track {
  readonly key: string;
  readonly chosen: Chosen;
  readonly name: string;
  /** Counted from 0. */
  readonly channel: number;
  /** How many channels the file has. */
  readonly of: number;
  /** null is left out. */
  readonly place: TrackPlace | null;
}

/** More cannot be measured in one go. */
const MOST_TRACKS = 64;
/** For files that are no WAV: decoded at the rate most recordings have. */
const DECODED_RATE = 48_000;

const files = signal<readonly Chosen[]>([]);
const faults = signal<readonly SoundFileNote[]>([]);
const reading = signal(false);
/** What the user said of a track; of another setup's channels it means nothing. */
const said = signal<{ readonly setup: Id | null; readonly places: ReadonlyMap<string, TrackPlace | null> }>({
  setup: null,
  places: new Map(),
});

/** Whether files begin together or at the times in their headers. */
export const align = signal<Job["align"]>("time");
/** Whether the headers of files that were chosen are being read. */
export const isReading: ReadonlySignal<boolean> = reading;
/** Why some of the chosen files were not taken. */
export const notTaken: ReadonlySignal<readonly SoundFileNote[]> = faults;

const corrections = computed(() =>
  said.value.setup === shelf.openId.value ? said.value.places : new Map<string, TrackPlace | null>(),
);

/** Every channel of every chosen file, matched by name and as the user corrected it. */
export const tracks = computed<readonly Track[]>(() => {
  const all = files.value.flatMap((chosen, input) =>
    Array.from({ length: chosen.facts.channels }, (_, channel) => ({
      key: `${chosen.id}:${channel}`,
      chosen,
      name: chosen.input.name,
      input,
      channel,
      of: chosen.facts.channels,
    })),
  );
  const own = new Map<number, TrackPlace | null>();
  all.forEach(({ key }, at) => {
    const place = corrections.value.get(key);
    if (place !== undefined) own.set(at, place);
  });
  const places = matchTracks(all, current.value.channels, own);
  return all.map((track, at) => ({ ...track, place: places[at] ?? null }));
});

/** Files of which some channel is matched: only they are measured. */
const used = computed(() =>
  files.value.filter((file) => tracks.value.some((t) => t.place && t.chosen === file)),
);

/** Whether some of the files say when they began, so that there is something to choose. */
export const hasTimes = computed(() => used.value.some(({ facts }) => facts.began !== null));

/** How the matched files lie in time, or why they cannot be put together. */
export const together = computed<LineUp | null>(() =>
  used.value.length === 0
    ? null
    : lineUp(
        used.value.map((c) => c.facts),
        align.value,
      ),
);

/** What is to be measured, but for the gains. */
export interface MeasuringPlan {
  readonly inputs: readonly Input[];
  readonly tracks: readonly {
    readonly input: number;
    readonly channel: number;
    readonly place: TrackPlace;
  }[];
  readonly align: Job["align"];
}

/** The matched tracks, ready to be measured; null where there are none. */
export const plan = computed<MeasuringPlan | null>(() => {
  const matched = tracks.value.flatMap(({ chosen, channel, place }) =>
    place ? [{ input: used.value.indexOf(chosen), channel, place }] : [],
  );
  if (matched.length === 0) return null;
  return { inputs: used.value.map((c) => c.input), tracks: matched, align: align.value };
});

/** Why the plan cannot be measured; empty where it can. */
export const hindrances = computed<readonly SoundFileNote[]>(() => {
  const count = plan.value?.tracks.length ?? 0;
  const many: SoundFileNote[] =
    count > MOST_TRACKS ? [{ code: "many tracks", count, most: MOST_TRACKS }] : [];
  return together.value && !together.value.ok ? [...many, ...together.value.why] : many;
});

let lastId = 0;

const open = async (file: File): Promise<Chosen | SoundFileNote> => {
  const prepared = await prepareInput(file, {
    look: askLook,
    decoder: () => new OfflineAudioContext(1, 1, DECODED_RATE),
  });
  if (!prepared.ok) return prepared.why;
  const read = await readFacts(prepared.input);
  lastId += 1;
  return read.ok ? { id: lastId, input: prepared.input, facts: read.facts } : read.why;
};

/** Adds files to those chosen; one of the same name takes the other's place. Only their headers are read. */
export const addFiles = async (chosen: readonly File[]): Promise<void> => {
  reading.value = true;
  const opened = await Promise.all(chosen.map(open));
  const good = opened.filter((o) => "facts" in o);
  const names = new Set(good.map((g) => g.input.name));
  files.value = [...files.value.filter((f) => !names.has(f.input.name)), ...good];
  faults.value = opened.flatMap((o) => ("facts" in o ? [] : [o]));
  reading.value = false;
};

/** Lets go of all files. */
export const dropFiles = (): void => {
  files.value = [];
  faults.value = [];
  said.value = { setup: null, places: new Map() };
};

/** Takes a track for a channel of a channel, or leaves it out; another track that was said to be the same is matched anew. */
export const take = (key: string, place: TrackPlace | null): void => {
  const isSame = (p: TrackPlace | null): boolean =>
    p !== null && p.channel === place?.channel && p.line === place.line;
  const others = [...corrections.value].filter(([, p]) => !isSame(p));
  said.value = { setup: shelf.openId.value, places: new Map([...others, [key, place]]) };
};
