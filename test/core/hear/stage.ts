import type { Id } from "../../../src/core/model/setup";
import type { SetupFile } from "../../../src/document/schema";

/*
 * A kit, its microphones, a desk and an interface, as sound: written a second time, no line of it is the engine's.
 * Every drum is a decaying noise or tone, every microphone hears every drum, later and softer with the distance, with
 * reflections of its own; desk, patch and the listener's mixer pass it on; the interface adds noise.
 */

/** What is wrong on an evening. */
export interface Wrong {
  readonly fault: string;
  /** The channel at fault. */
  readonly channel: Id | null;
  /** Of "side-trim": how much louder the right output is, dB; of "wrong-pan": the pan. */
  readonly size?: number;
}

/** One evening at one kit: what nobody enters. */
export interface Evening {
  readonly setup: SetupFile;
  readonly wrong: Wrong;
  readonly rate: number;
  readonly random: () => number;
  /** Level of a hit in a microphone against the drum's own, dB, and when it arrives, seconds; with its reflections. */
  readonly arrivals: ReadonlyMap<string, readonly Arrival[]>;
  /** How much louder each drum is than usual, dB. */
  readonly drums: ReadonlyMap<Id, number>;
  /** Error of each level on the way, dB, by name. */
  readonly errors: Map<string, number>;
  /** Level of the noise on each side, dBFS rms. */
  readonly noise: number;
  /** Gain of the interface, dB. */
  readonly gain: number;
}

interface Arrival {
  readonly gain: number;
  readonly seconds: number;
}

const times = (db: number): number => Math.exp((db * Math.LN10) / 20);
const between = (random: () => number, low: number, high: number): number => low + (high - low) * random();

/** A normally distributed number (Box and Muller 1958). */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** Pan laws in their textbook forms: gain of a side by the way towards it, 0…1. */
const LAWS: { readonly [law: string]: (to: number, drop: number) => number } = {
  sine: (to) => Math.sin((to * Math.PI) / 2),
  root: (to) => Math.sqrt(to),
  linear: (to) => to,
  mean45: (to) => Math.sqrt(to * Math.sin((to * Math.PI) / 2)),
  sine45: (to) => Math.sin((to * Math.PI) / 2) ** 1.5,
  cosine2: (to) => (1 - Math.cos(to * Math.PI)) / 2,
  custom: (to, drop) =>
    to === 0 ? 0 : Math.exp((drop / 3.0102999566398) * Math.log(Math.sin((to * Math.PI) / 2))),
};

/** Gains left and right of one microphone at a pan −1…1. */
export const panned = (
  { law, reference, centreDb }: SetupFile["desk"],
  pan: number,
): readonly [number, number] => {
  const curve = LAWS[law];
  if (!curve) throw new Error(`no law ${law}`);
  const unity = reference === "sides" ? 1 : curve(0.5, centreDb);
  return [curve((1 - pan) / 2, centreDb) / unity, curve((1 + pan) / 2, centreDb) / unity];
};

/** Levels of the bleed on an evening, dB. */
export interface Acoustics {
  readonly bleed: readonly [low: number, high: number];
  readonly overheads: readonly [low: number, high: number];
  readonly noise: number;
}
/** As wanted: bleed −12…−20 dB, overheads that hear all, noise at −60 dBFS. */
export const ACOUSTICS: Acoustics = { bleed: [-20, -12], overheads: [-16, -6], noise: -60 };

const SOUND = 343;

/** An evening by chance. */
export const eveningOf = (
  setup: SetupFile,
  wrong: Wrong,
  rate: number,
  random: () => number,
  { bleed, overheads, noise }: Acoustics = ACOUSTICS,
): Evening => {
  const above = between(random, overheads[0], overheads[1]);
  const placeOf = (id: Id | null) => setup.kit.pieces.find((piece) => piece.id === id);
  const arrivals = new Map<string, readonly Arrival[]>();
  for (const drum of setup.kit.pieces)
    for (const channel of setup.channels) {
      const place = placeOf(channel.piece);
      if (!place) continue;
      const isOwn = place.id === drum.id;
      const isAbove = place.kind === "overhead";
      const metres = Math.hypot(place.x - drum.x, place.y - drum.y, isAbove ? 1 : 0);
      const level = isOwn
        ? 0
        : isAbove
          ? above - 20 * Math.log10(metres) + between(random, -1.5, 1.5)
          : between(random, bleed[0], bleed[1]);
      const seconds = (isOwn ? between(random, 0.03, 0.08) : metres) / SOUND;
      // A drum has two skins that move against each other: below it everything is the other way round.
      const turned = isOwn && channel.inverted ? -1 : 1;
      const reflections = isOwn
        ? []
        : [0, 1, 2].map(() => ({
            gain: times(level) * between(random, -0.4, 0.4),
            seconds: seconds + between(random, 0.001, 0.009),
          }));
      arrivals.set(`${drum.id} ${channel.id}`, [{ gain: turned * times(level), seconds }, ...reflections]);
    }
  return {
    setup,
    wrong,
    rate,
    random,
    arrivals,
    drums: new Map(setup.kit.pieces.map((piece) => [piece.id, 3 * normal(random)])),
    errors: new Map(),
    noise,
    gain: between(random, -6, 6),
  };
};

const errorOf = ({ errors, random }: Evening, name: string): number => {
  const known = errors.get(name);
  if (known !== undefined) return known;
  const made = 0.3 * normal(random);
  errors.set(name, made);
  return made;
};

/** What each microphone brings to the two outputs of the bus. */
interface Line {
  readonly channel: SetupFile["channels"][number];
  readonly l: number;
  readonly r: number;
}

const swap = ({ channel, l, r }: Line): Line => ({ channel, l: r, r: l });
const fold = ({ channel, l, r }: Line): Line => ({ channel, l: l + r, r: l + r });
const AT_BUS: { readonly [fault: string]: (line: Line, size: number) => Line } = {
  "left-only": ({ channel, l }) => ({ channel, l, r: 0 }),
  "right-only": ({ channel, r }) => ({ channel, l: 0, r }),
  "left-in-both": ({ channel, l }) => ({ channel, l, r: l }),
  "right-in-both": ({ channel, r }) => ({ channel, l: r, r }),
  inverted: ({ channel, l, r }) => ({ channel, l, r: -r }),
  silent: ({ channel }) => ({ channel, l: 0, r: 0 }),
  swapped: swap,
  "side-trim": ({ channel, l, r }, size) => ({ channel, l: l * times(-size / 2), r: r * times(size / 2) }),
};
const AT_EARS: { readonly [fault: string]: (line: Line) => Line } = {
  "ears-swapped": swap,
  "left-ear-dead": ({ channel, r }) => ({ channel, l: 0, r }),
  "right-ear-dead": ({ channel, l }) => ({ channel, l, r: 0 }),
};

/** Gains of every microphone at the phone. */
const linesOf = (evening: Evening): readonly Line[] => {
  const { setup, wrong } = evening;
  const listener = setup.listeners.find((one) => one.kind === "drummer");
  const bus = setup.buses.find((one) => one.id === listener?.bus);
  if (!bus || !listener) throw new Error("nobody listens");
  const isAbove = (piece: Id | null): boolean =>
    setup.kit.pieces.some((place) => place.id === piece && place.kind === "overhead");
  const overheads = setup.channels.filter(({ piece }) => isAbove(piece));
  const lines = bus.sends.flatMap((send): Line[] => {
    const channel = setup.channels.find((one) => one.id === send.channel);
    if (!channel || channel.muted || send.level === null || !send.on) return [];
    if (wrong.fault === "missing" && wrong.channel === channel.id) return [];
    let pan = send.pan ?? channel.pan;
    if (wrong.fault === "all-centred") pan = 0;
    if (wrong.channel === channel.id && wrong.fault === "wrong-side") pan = -pan;
    if (wrong.channel === channel.id && wrong.fault === "wrong-pan") pan = wrong.size ?? 0;
    // Crossed: the lead of one overhead is in the channel of the other.
    const lead =
      wrong.fault === "overheads-crossed" && isAbove(channel.piece)
        ? (overheads[overheads.length - 1 - overheads.indexOf(channel)] ?? channel)
        : channel;
    const level = times(send.level + errorOf(evening, `send ${channel.id}`)) * (channel.inverted ? -1 : 1);
    const [l, r] = panned(setup.desk, pan);
    return [{ channel: lead, l: l * level, r: r * level }];
  });
  const atBus = lines.map((line) => AT_BUS[wrong.fault]?.(line, wrong.size ?? 0) ?? line);
  const [left, right] = [errorOf(evening, "left"), errorOf(evening, "right")].map(times) as [number, number];
  const out = atBus.map(({ channel, l, r }) => ({ channel, l: l * left, r: r * right }));
  // The inputs that are chosen at the listener's mixer, and what lies in them.
  const inputs = setup.monitor.inputs.map((input) => (input?.feed.kind === "bus" ? input.feed : null));
  const first = inputs.findIndex((feed) => feed?.bus === bus.id);
  const by = wrong.fault === "inputs-up" ? 1 : wrong.fault === "inputs-down" ? -1 : 0;
  const lying = ({ l, r }: Line, at: number): number => {
    const feed = inputs[at];
    return feed ? (feed.side === "left" ? l : r) : 0;
  };
  let heard = out.map((line) => ({
    channel: line.channel,
    l: lying(line, first + by),
    r: lying(line, first + 1 + by),
  }));
  if (listener.flipped !== (wrong.fault === "flipped")) heard = heard.map(swap);
  if (listener.mono || wrong.fault === "folded") heard = heard.map(fold);
  return heard.map((line) => AT_EARS[wrong.fault]?.(line) ?? line);
};

/** The bare sound of a drum, about one at its highest. */
const soundOf = (kind: string, rate: number, length: number, random: () => number): Float64Array => {
  const shapes: {
    readonly [kind: string]: readonly [
      hertz: number,
      tone: number,
      toneFor: number,
      noise: number,
      noiseFor: number,
    ];
  } = {
    kick: [55, 0.9, 0.12, 0.15, 0.008],
    snare: [190, 0.5, 0.08, 0.6, 0.09],
    hat: [6000, 0.1, 0.02, 0.9, 0.05],
    tom: [120, 0.9, 0.2, 0.15, 0.012],
    floor: [80, 0.9, 0.3, 0.15, 0.012],
    ride: [3500, 0.3, 0.3, 0.6, 0.4],
    crash: [2500, 0.2, 0.4, 0.8, 0.6],
    percussion: [500, 0.8, 0.05, 0.3, 0.02],
  };
  const [hertz, tone, toneFor, noise, noiseFor] = shapes[kind] ?? [400, 0.5, 0.1, 0.5, 0.1];
  const pitch = hertz * between(random, 0.95, 1.05);
  return Float64Array.from({ length }, (_, i) => {
    const t = i / rate;
    const rise = Math.min(1, t / 0.0015);
    return (
      rise *
      (tone * Math.exp(-t / toneFor) * Math.sin(2 * Math.PI * pitch * t) +
        noise * Math.exp(-t / noiseFor) * (2 * random() - 1))
    );
  });
};

/** What a hit sounds like at the phone. */
export interface Rendered {
  readonly left: Float32Array;
  readonly right: Float32Array;
  /** Where the hit begins, seconds. */
  readonly at: number;
}

/** Silence before a hit, and what is rendered behind its beginning, seconds. */
const BEFORE = 0.1;
const AFTER = 0.25;

/**
 * Renders one hit.
 * @param more how much louder than this drum is hit otherwise, dB
 */
export const hitOn = (evening: Evening, drum: Id, more = 0): Rendered => {
  const { setup, rate, random, arrivals, drums, noise, gain } = evening;
  const begin = Math.round(rate * BEFORE);
  const length = begin + Math.round(rate * AFTER);
  const piece = setup.kit.pieces.find((one) => one.id === drum);
  const peaks = setup.channels.flatMap((channel) => (channel.piece === drum ? [channel.peak ?? -12] : []));
  const loudest = peaks.length > 0 ? Math.max(...peaks) : -14;
  const loud = times(loudest + (drums.get(drum) ?? 0) + 2 * normal(random) + gain + more);
  const sound = soundOf(piece?.kind ?? "", rate, length - begin, random);
  const sides = [new Float64Array(length), new Float64Array(length)] as const;
  for (const { channel, l, r } of linesOf(evening)) {
    const softer = channel.piece === drum ? times((channel.peak ?? loudest) - loudest) : 1;
    for (const { gain: through, seconds } of arrivals.get(`${drum} ${channel.id}`) ?? []) {
      const from = begin + Math.round(seconds * rate);
      const [toLeft, toRight] = [l * through * softer * loud, r * through * softer * loud];
      for (let i = 0; from + i < length && i < sound.length; i += 1) {
        const sample = sound[i] as number;
        sides[0][from + i] = (sides[0][from + i] as number) + toLeft * sample;
        sides[1][from + i] = (sides[1][from + i] as number) + toRight * sample;
      }
    }
  }
  // Evenly distributed noise has the rms of its half width over the root of three.
  const hiss = times(noise) * Math.sqrt(3);
  const recorded = (side: Float64Array) =>
    Float32Array.from(side, (sample) => Math.max(-1, Math.min(1, sample + hiss * (2 * random() - 1))));
  return { left: recorded(sides[0]), right: recorded(sides[1]), at: BEFORE };
};
