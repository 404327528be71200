import { computed, effect, signal } from "@preact/signals";
import type { HeardDrum, HearingState } from "../../core/hear/heard";
import type { FoundHit, UncountedHit } from "../../core/hear/hit";
import type { HearingPoint, Id } from "../../core/model/setup";
import { current } from "../../document/store";
import { type Judge, openJudge } from "../../hear/judge";
import type { Judged } from "../../hear/protocol";
import { shelf } from "../../shelf/here";
import { isHearing } from "../check/way";
import { fault, hearHits } from "./session";

/** A check by input, from its beginning. */
interface Course {
  /** Of which setup. */
  readonly of: string | null;
  readonly listener: Id;
  readonly point: HearingPoint;
  /** Nobody asks for a drum: whatever is hit is heard. */
  readonly isFree: boolean;
}

const begun = signal<Course | null>(null);
const all = signal<readonly HeardDrum[]>([]);
const lastRefused = signal<UncountedHit | null>(null);
const answer = signal<{ readonly judged: Judged; readonly of: readonly HeardDrum[] } | null>(null);

/** The check by input under way; another setup has none. */
export const course = computed(() => (begun.value?.of === shelf.openId.value ? begun.value : null));

/** Whose ears it is about. */
export const heardListener = computed(() =>
  current.value.listeners.find(({ id }) => id === course.value?.listener),
);

/** What was heard so far. */
export const heardDrums = computed<readonly HeardDrum[]>(() => (course.value ? all.value : []));

/** Why a hit after the last that counts does not; null where there was none. */
export const refusedHit = computed(() => (course.value ? lastRefused.value : null));

/** Judging was not possible: the program of it could not be loaded, or has stopped. */
export const isJudgeLost = signal(false);

/** What is believed now, or why there is nothing to hear; null until it has been worked out for the first time. */
export const hearingState = computed<Judged | null>(() =>
  course.value ? (answer.value?.judged ?? null) : null,
);

let last: { readonly parts: readonly unknown[]; readonly begin: Parameters<typeof openJudge>[0] } | null =
  null;

/** What a verdict rests on but the hits: the same object until something of it has changed. */
const grounds = computed(() => {
  const listener = heardListener.value;
  const now = course.value;
  if (!listener || !now) return null;
  const setup = current.value;
  const { kit, desk, channels, buses, listeners, monitor } = setup;
  const parts = [now, kit, desk, channels, buses, listeners, monitor];
  if (!last || parts.some((part, at) => part !== last?.parts[at]))
    last = { parts, begin: { setup, listener, point: now.point } };
  return last.begin;
});

effect(() => {
  isHearing.value = course.value !== null;
});

let judge: Judge | null = null;

effect(() => {
  const begin = grounds.value;
  judge?.close();
  judge = null;
  answer.value = null;
  isJudgeLost.value = false;
  if (!begin) return;
  const fail = (): void => {
    isJudgeLost.value = true;
  };
  try {
    judge = openJudge(
      begin,
      (judged, of) => {
        answer.value = { judged, of };
        askedAt = performance.now();
      },
      fail,
    );
    judge.ask(all.peek());
  } catch {
    fail();
  }
});

const setHeard = (heard: readonly HeardDrum[]): void => {
  lastRefused.value = null;
  all.value = heard;
  judge?.ask(heard);
};

/**
 * A hit that is found sooner than this after a drum was asked for is no answer: nobody has read and struck by then, but
 * somebody may have hit the drum before twice. A design choice; it is found 0.15 s after its onset.
 */
const SOONEST_MS = 900;
let askedAt = 0;

/** The drum that is asked for; null where none is, or the last hit is still being judged. */
const askedDrum = (): Id | null => {
  const now = answer.peek();
  if (!now || typeof now.judged === "string" || now.of !== all.peek()) return null;
  const { verdict } = now.judged;
  return verdict.kind === "asking" ? verdict.next : null;
};

const isOver = (): boolean => {
  const judged = hearingState.peek();
  return typeof judged === "string" || (judged as HearingState | null)?.verdict.kind !== "asking";
};

const take = (found: FoundHit): void => {
  // Of an input that is no pair nothing is learnt.
  if (isOver() || fault.peek() === "one-channel" || fault.peek() === "identical") return;
  const isFree = course.peek()?.isFree ?? false;
  const piece = isFree ? null : askedDrum();
  if (!isFree && (piece === null || performance.now() < askedAt + SOONEST_MS)) lastRefused.value = "early";
  else if (found.kind === "hit") setHeard([...all.peek(), { piece, hit: found.hit }]);
  else lastRefused.value = found.why;
};

/** Begins a check by input; one that was under way is over. */
export const startHearing = (listener: Id, point: HearingPoint, isFree: boolean): void => {
  all.value = [];
  lastRefused.value = null;
  begun.value = { of: shelf.openId.peek(), listener, point, isFree };
  hearHits(take);
};

/** Ends it; what was heard is gone. */
export const endHearing = (): void => {
  begun.value = null;
  hearHits(null);
};

/** The drum that is asked for was hit, and nothing came. */
export const nothingHeard = (): void => {
  const piece = askedDrum();
  if (piece !== null) setHeard([...all.peek(), { piece, hit: null }]);
};

/** Takes the last hit back. */
export const removeHit = (): void => setHeard(all.peek().slice(0, -1));
