import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { once } from "../../core/lib/memo";
import type { TrackPlace } from "../../core/measure/bus-gains";
import { type Products, unrelatedProducts } from "../../core/measure/covariance";
import { blockBegin, productsOver } from "../../core/measure/part";
import type { Id, PieceKind } from "../../core/model/setup";
import type { Metres } from "../../core/model/units";
import { current } from "../../document/store";
import { GAPS, type Hits, renderHits, roundOf } from "../../listen/hits";
import type { Round } from "../../listen/round";
import { fadeEnds } from "../../listen/seam";
import { askExcerpt } from "../../measure/client";
import type { Excerpt } from "../../measure/excerpt";
import { type MeasuredBus, result } from "../recordings/measuring";
import { channelTitle } from "../shown-names";

/** What goes round, and which channel of which channel each voice is. */
export interface Voices {
  readonly round: Round;
  /** Mean products of each two of them. */
  readonly products: Products;
  readonly places: readonly TrackPlace[];
  /** Tracks of a recording, each channel with its own gain; else one hit stands for a whole channel. */
  readonly recorded: boolean;
}

/** A channel that stands at a piece and sounds. */
interface Struck {
  readonly channel: Id;
  readonly kind: PieceKind;
  /** Right of the throne. */
  readonly x: Metres;
}

const RATE = 48_000;
/** Of a recording so much is heard, a little before and after its loudest moment. */
const SECONDS = 8;
const BEFORE = 2;
/** More samples than this are not held in memory: 64 tracks are heard for a second and a half. */
const MOST_SAMPLES = 2 ** 22;
/** Marks a channel that is heard alone. */
const ALONE = "=";

const ALL = [
  ["round", "Every piece, one after the other"],
  ["fill", "A fill across the kit"],
] as const;

/** As text, so that a change of pan, which makes no other hits, changes nothing here. */
const struck = computed<string>(() => {
  const { channels, kit } = current.value;
  const list = channels.flatMap(({ id, piece, muted }): Struck[] => {
    const at = kit.pieces.find((p) => p.id === piece);
    return at && !muted ? [{ channel: id, kind: at.kind, x: at.x }] : [];
  });
  return JSON.stringify(list);
});

const allStruck = (): readonly Struck[] => JSON.parse(struck.value);

/** What can be played: hits together, the recording where one was measured, one piece alone. */
export const materials = computed<readonly (readonly [value: string, name: string])[]>(() => {
  const pieces = allStruck();
  return [
    ...(pieces.length > 0 ? ALL : []),
    ...(result.value ? [["recording", "The recording, round its loudest moment"] as const] : []),
    ...pieces.map(({ channel }) => [`${ALONE}${channel}`, `${channelTitle(channel)} alone`] as const),
  ];
});

const wanted = signal("");

/** What plays: what was chosen last and is still there. */
export const material = computed<string>(
  () => (materials.value.find(([value]) => value === wanted.value) ?? materials.value[0])?.[0] ?? "",
);

/** Chooses what plays. */
export const chooseMaterial = (value: string): void => {
  wanted.value = value;
};

/** A piece of a recording that was read, or could not be, and what is measured of it. */
interface Read {
  readonly of: MeasuredBus;
  readonly it: Excerpt | null;
  readonly products: Products;
}

const excerpt = signal<Read | null>(null);
const ownExcerpt = computed(() => (excerpt.value?.of === result.value ? excerpt.value : null));

/** What is read or was read last: whoever asks for the same waits for the same. */
let reading: { readonly of: MeasuredBus; readonly done: Promise<void> } | null = null;

/** Reads the piece of the recording that is heard. */
const readRecording = async (of: MeasuredBus): Promise<void> => {
  const { figures, job } = of;
  const seconds = Math.min(SECONDS, figures.seconds, MOST_SAMPLES / (job.tracks.length * figures.rate));
  const last = figures.seconds - seconds;
  const from = Math.max(0, Math.min(blockBegin(figures, (figures.loudest?.at ?? 0) - BEFORE), last));
  const products = productsOver(figures, from, seconds);
  const it = await askExcerpt(job, from, seconds);
  for (const track of it?.tracks ?? []) fadeEnds(track, figures.rate);
  // Another measurement may have come meanwhile.
  if (reading?.of === of) excerpt.value = { of, it, products };
};

const rendered = signal<Hits | null>(null);
const renderAll = once(async () => {
  rendered.value = await renderHits(RATE);
});

/** Gets what plays ready: the piece of the recording, once a measurement, or the hits, once for all. */
export const prepare = (): Promise<void> => {
  const of = result.peek();
  if (material.peek() !== "recording" || !of) return renderAll();
  if (reading?.of !== of) reading = { of, done: readRecording(of) };
  return reading.done;
};

/** Whether what plays is ready. */
export const isReady: ReadonlySignal<boolean> = computed(() => voices.value !== null);

/** Whether the recording was to be read and could not be. */
export const isUnreadable: ReadonlySignal<boolean> = computed(
  () => material.value === "recording" && ownExcerpt.value?.it === null,
);

const voicesOf = (pieces: readonly Struck[], hits: Hits, gap: number): Voices => {
  const round = roundOf(
    pieces.map((p) => p.kind),
    hits,
    gap,
  );
  const products = unrelatedProducts(
    round.voices.map((v) => v.samples),
    round.length,
  );
  const places = pieces.map(({ channel }) => ({ channel, line: 0 as const }));
  return { round, products, places, recorded: false };
};

/** What plays; null until it is ready. */
export const voices = computed<Voices | null>(() => {
  const what = material.value;
  if (what === "") return null;
  if (what === "recording") {
    const { of, it, products } = ownExcerpt.value ?? {};
    if (!of || !it || !products) return null;
    // What is shorter than a second comes once a second.
    const voices = it.tracks.map((samples) => ({ samples, at: 0 }));
    const round = { voices, rate: it.rate, length: Math.max(it.rate, it.tracks[0]?.length ?? 0) };
    return { round, products, places: of.places, recorded: true };
  }
  const hits = rendered.value;
  if (!hits) return null;
  const pieces = allStruck();
  // From the drummer's left to the right.
  if (what === "fill")
    return voicesOf(
      [...pieces].sort((a, b) => a.x - b.x),
      hits,
      GAPS.fill,
    );
  const some = what === "round" ? pieces : pieces.filter((p) => ALONE + p.channel === what);
  return voicesOf(some, hits, GAPS.round);
});
