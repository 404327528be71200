import type { AllocationChannel, AllocationProblem } from "../../../src/core/allocate/model";

/*
 * Tries everything: every channel everywhere, every bus in mono and stereo. Written from the rules as they are told in
 * words; of the engine it takes the form of the question alone.
 */

type Rules = {
  own: string;
  stereo: string;
  panned?: boolean;
  shares?: string;
  asked?: boolean;
  optional?: boolean;
};
/** Family, section and rule of each kind that small problems and the worked example have, typed out again. */
const KINDS: Record<string, { family: string; section?: string; singer?: boolean; rule: Rules }> = {
  kick: { family: "drums", rule: { own: "if-left", stereo: "no", panned: true } },
  snare: { family: "drums", rule: { own: "if-left", stereo: "no", panned: true } },
  drum: { family: "drums", rule: { own: "no", stereo: "prefer", panned: true } },
  percussion: {
    family: "drums",
    section: "percussion",
    rule: { own: "no-matter", stereo: "prefer" },
  },
  bass: { family: "bass", rule: { own: "must", stereo: "no" } },
  guitar: { family: "guitars", rule: { own: "prefer", stereo: "prefer" } },
  keys: { family: "keys", rule: { own: "prefer", stereo: "prefer" } },
  horn: { family: "horns", rule: { own: "no-matter", stereo: "no" } },
  "lead-vocal": { family: "vocals", singer: true, rule: { own: "must", stereo: "no" } },
  vocal: { family: "vocals", singer: true, rule: { own: "prefer", stereo: "no" } },
  playback: { family: "playback", rule: { own: "prefer", stereo: "prefer" } },
  click: { family: "click", rule: { own: "must", stereo: "no", shares: "nobody", asked: true } },
  talkback: { family: "fold-back", rule: { own: "prefer", stereo: "no" } },
  speech: { family: "fold-back", rule: { own: "no", stereo: "no" } },
  audience: { family: "fold-back", rule: { own: "no", stereo: "no", asked: true, optional: true } },
};
const KIND_ORDER = Object.keys(KINDS);
const FAMILY_ORDER = [...new Set(Object.values(KINDS).map((k) => k.family))];

const ruleOf = (c: AllocationChannel) => {
  const { rule } = KINDS[c.kind] as { rule: Rules };
  return {
    own: rule.own,
    stereo: rule.stereo,
    panned: rule.panned ?? false,
    shares: rule.shares ?? "anyone",
    reach: rule.asked ? "asked" : "all",
    mayLeaveOut: rule.optional ?? false,
    maySwap: false,
    ...c.rule,
    ...(c.kind === "click" ? { shares: "nobody" } : {}),
  };
};
const familyOf = (c: AllocationChannel): string => KINDS[c.kind]?.family ?? "";
const sectionOf = (c: AllocationChannel): string => c.section ?? KINDS[c.kind]?.section ?? "";

/** Channels in the conventional order. */
const ordered = (channels: readonly AllocationChannel[]): AllocationChannel[] => {
  const key = (c: AllocationChannel): (string | number)[] => [
    KIND_ORDER.indexOf(c.kind),
    c.number ?? 1e9,
    c.name,
    c.id,
  ];
  const compare = (a: (string | number)[], b: (string | number)[]): number => {
    const i = a.findIndex((v, at) => v !== b[at]);
    return i < 0 ? 0 : (a[i] as number) < (b[i] as number) ? -1 : 1;
  };
  const peers = (c: AllocationChannel) =>
    channels.filter((o) => familyOf(o) === familyOf(c) && sectionOf(o) === sectionOf(c));
  const firstKey = (c: AllocationChannel) => peers(c).map(key).sort(compare)[0] as (string | number)[];
  return [...channels].sort(
    (a, b) =>
      FAMILY_ORDER.indexOf(familyOf(a)) - FAMILY_ORDER.indexOf(familyOf(b)) ||
      compare(firstKey(a), firstKey(b)) ||
      compare(key(a), key(b)),
  );
};

/** Buses a channel could lie in, narrowest first. */
export const busesOf = (
  c: AllocationChannel,
  all: readonly AllocationChannel[],
): { id: string; level: number }[] => {
  const [family, section, { instrument }] = [familyOf(c), sectionOf(c), c];
  const isMate = (o: AllocationChannel) =>
    familyOf(o) === family && sectionOf(o) === section && o.instrument === instrument;
  return [
    ...(instrument && all.filter(isMate).length > 1
      ? [{ id: `${family}/${section}/${instrument}`, level: 0 }]
      : []),
    ...(section ? [{ id: `${family}/${section}`, level: 1 }] : []),
    ...(family === "fold-back" ? [] : [{ id: family, level: 2 }]),
    { id: "fold-back", level: 3 },
  ];
};

const CODES = [
  "unheard",
  "must-own-shared",
  "sides-lost",
  "own-voice-shared",
  "left-out",
  "families-share",
  "sections-share",
  "image-folded",
  "own-shared",
  "stereo-folded",
  "spare-own-shared",
  "not-all-apart",
  "own-input-lost",
  "input-used",
  "bus-made",
  "changed",
  "channel-shares",
  "early-yields",
] as const;

/** Where a channel could go. */
export type Place = { at: "own"; width: number } | { at: "bus"; id: string; level: number } | { at: "out" };

const countsOf = (
  problem: AllocationProblem,
  order: readonly AllocationChannel[],
  places: ReadonlyMap<AllocationChannel, Place>,
  widths: ReadonlyMap<string, number>,
): number[] | null => {
  const n: Record<string, number> = Object.fromEntries(CODES.map((c) => [c, 0]));
  const add = (code: (typeof CODES)[number], by = 1) => {
    n[code] = (n[code] as number) + by;
  };
  const allMono = problem.musicians.length > 0 && problem.musicians.every((m) => m.mono);
  for (const [i, c] of order.entries()) {
    const rule = ruleOf(c);
    const place = places.get(c) as Place;
    const others = problem.channels.filter((o) => o !== c);
    const aloneNow =
      c.currentInputs.length > 0 &&
      !others.some((o) => o.currentInputs.some((x) => c.currentInputs.includes(x)));
    const wants = allMono ? "no" : c.keepsSides ? "must" : c.width === 2 || rule.panned ? rule.stereo : "no";
    let yields = false;
    const isApart = place.at === "own" || (place.at === "bus" && place.level === 0);
    if (place.at === "out") {
      const hearers = new Set([
        ...c.wantedBy,
        ...(rule.reach === "all" ? problem.musicians.map((m) => m.id) : []),
      ]);
      add("unheard", Math.max(hearers.size, rule.mayLeaveOut ? 0 : 1));
      add("left-out");
      yields = true;
    }
    if (place.at === "own") add("input-used", place.width);
    const mono =
      place.at === "own" ? place.width < c.width : place.at === "bus" ? widths.get(place.id) === 1 : false;
    if (mono && wants !== "no") {
      add(wants === "must" ? "sides-lost" : rule.panned ? "image-folded" : "stereo-folded");
      yields = true;
    }
    if (place.at === "bus") {
      add("channel-shares");
      if (rule.shares === "nobody") return null;
      const isHome = familyOf(c) === "fold-back";
      if (place.level === 3 && !isHome && rule.shares === "family") return null;
      if (c.keepsSides && widths.get(place.id) === 2 && problem.swapped.includes(place.id)) {
        if (!rule.maySwap) return null;
        add("sides-lost");
      }
      if (place.level > 0) {
        yields = true;
        if (rule.own === "must") add("must-own-shared");
        if (rule.own === "prefer")
          add(KINDS[c.kind]?.singer && c.player !== null ? "own-voice-shared" : "own-shared");
        if (rule.own === "if-left") add("spare-own-shared");
        if (place.level === 3 && !isHome) add("families-share");
        else if (place.level >= 2 && sectionOf(c)) add("sections-share");
      }
    }
    if (!isApart && aloneNow) add("own-input-lost");
    const { current } = c;
    const stays =
      place.at === "own"
        ? current?.as === "own" && current.width === place.width
        : place.at === "bus" &&
          current?.as === "bus" &&
          current.width === widths.get(place.id) &&
          current.bus === place.id;
    if (c.currentInputs.length > 0 && !stays) add("changed");
    if (!isApart && place.at !== "out" && rule.own === "no-matter") n["not-all-apart"] = 1;
    if (yields) add("early-yields", order.length - i);
  }
  for (const width of widths.values()) {
    add("bus-made");
    add("input-used", width);
  }
  return CODES.map((code) => n[code] as number);
};

/** Whether so many mono and stereo feeds and those that were placed by hand find inputs. */
const fits = (
  problem: AllocationProblem,
  feeds: readonly { width: number; input: number | null }[],
): boolean => {
  const taken = new Set(problem.reserved);
  for (const { width, input } of feeds) {
    if (input === null) continue;
    if (width === 2 && input % 2 === 0) return false;
    for (let k = input; k < input + width; k += 1) {
      if (k < 1 || k > problem.inputs || taken.has(k)) return false;
      taken.add(k);
    }
  }
  for (const { width, input } of [...feeds].sort((a, b) => b.width - a.width)) {
    if (input !== null) continue;
    let found = 0;
    if (width === 2) {
      for (let k = 1; k < problem.inputs && !found; k += 2) if (!taken.has(k) && !taken.has(k + 1)) found = k;
      if (!found) return false;
      taken.add(found + 1);
    } else {
      for (let k = 1; k <= problem.inputs && !found; k += 1) if (!taken.has(k)) found = k;
      if (!found) return false;
    }
    taken.add(found);
  }
  return true;
};

/** What is asked besides the problem. */
interface Asked {
  /** The losses, worst first. */
  readonly order?: readonly string[];
  /** Whether a channel may go there; the width is that of the bus. */
  readonly may?: (c: AllocationChannel, place: Place, width: number) => boolean;
  /** How many inputs may be used. */
  readonly most?: number;
}

/** The least that can be lost, code by code, worst first; null where nothing is possible. */
export const leastLost = (
  problem: AllocationProblem,
  { order: codes = CODES, may = () => true, most = Number.POSITIVE_INFINITY }: Asked = {},
): number[] | null => {
  const columns = codes.map((code) => (CODES as readonly string[]).indexOf(code));
  const isBetter = (a: readonly number[], b: readonly number[] | null): boolean => {
    if (b === null) return true;
    const at = columns.find((i) => a[i] !== b[i]);
    return at !== undefined && (a[at] as number) < (b[at] as number);
  };
  const order = ordered(problem.channels);
  const known = new Set(["fold-back", ...order.flatMap((c) => busesOf(c, order).map((b) => b.id))]);
  if (!problem.busPins.every((p) => known.has(p.bus))) return null;
  const options = order.map((c): Place[] => {
    const { pin } = c;
    const buses = busesOf(c, order).map((b): Place => ({ at: "bus", ...b }));
    if (pin?.as === "out") return [{ at: "out" }];
    if (pin?.as === "own") return pin.width <= c.width ? [{ at: "own", width: pin.width }] : [];
    if (pin?.as === "fold-back") return buses.filter((b) => b.at === "bus" && b.level === 3);
    if (pin?.as === "shared")
      return buses.filter((b) => b.at === "bus" && (b.level < 3 || familyOf(c) === "fold-back"));
    const own = Array.from({ length: c.width }, (_, w): Place => ({ at: "own", width: w + 1 }));
    return [...own, ...buses, { at: "out" }];
  });
  let best: number[] | null = null;
  const places = new Map<AllocationChannel, Place>();
  const widths = new Map<string, number>();
  const withWidths = (ids: readonly string[], at: number): void => {
    const id = ids[at];
    if (id !== undefined) {
      const pin = problem.busPins.find((p) => p.bus === id);
      for (const width of pin ? [pin.width] : [1, 2]) {
        widths.set(id, width);
        withWidths(ids, at + 1);
      }
      widths.delete(id);
      return;
    }
    const feeds = [
      ...[...widths].map(([bus, width]) => ({
        width,
        input: problem.busPins.find((p) => p.bus === bus)?.input ?? null,
      })),
      ...order.flatMap((c) => {
        const place = places.get(c) as Place;
        return place.at === "own"
          ? [{ width: place.width, input: c.pin?.as === "own" ? c.pin.input : null }]
          : [];
      }),
    ];
    if (feeds.reduce((sum, { width }) => sum + width, 0) > most || !fits(problem, feeds)) return;
    for (const [c, place] of places)
      if (!may(c, place, place.at === "bus" ? (widths.get(place.id) as number) : 0)) return;
    const counts = countsOf(problem, order, places, widths);
    if (counts && isBetter(counts, best)) best = counts;
  };
  const withPlaces = (at: number): void => {
    const c = order[at];
    if (c) {
      for (const place of options[at] as Place[]) {
        places.set(c, place);
        withPlaces(at + 1);
      }
      return;
    }
    const used = [...places.values()].flatMap((p) => (p.at === "bus" ? [p.id] : []));
    withWidths([...new Set([...used, ...problem.busPins.map((p) => p.bus)])], 0);
  };
  withPlaces(0);
  return best;
};

/** The codes in the order of `leastLost`. */
export const BRUTE_CODES: readonly string[] = CODES;
