import type { Fault } from "../../../src/core/check/faults";
import type { Answer, Id } from "../../../src/core/model/setup";
import type { SetupFile } from "../../../src/document/schema";

/*
 * A stage, a desk and people, written a second time: no line of it is the engine's, and its people do not follow the
 * engine's model of answers. It knows levels and arrival times at microphones, every switch on the way to the ears, and
 * people with a steady threshold, a weaker ear, blur, lapses and habits.
 */

/** Somebody at the kit with in-ear monitors. */
export interface Human {
  /** Smaller differences are called the middle, dB. */
  readonly threshold: number;
  /** How much louder the right ear hears, dB. */
  readonly rightEar: number;
  /** Standard deviation of what is heard, dB, normally distributed. */
  readonly blur: number;
  /** Share of answers by any button at random. */
  readonly lapses: number;
  /** Says "can't place it" when there is no place. */
  readonly saysSo: boolean;
  /** So far below its usual level a drum is not heard beside the bare drum, dB. */
  readonly buried: number;
}

/** One evening: the plan, what is wrong, how loud the overheads are. */
export interface Evening {
  readonly setup: SetupFile;
  readonly fault: Fault;
  /** The channel at fault. */
  readonly channel: Id | null;
  /** Level of a hit in the nearest overhead, against the close microphone, dB. */
  readonly overheads: number;
}

/** What one microphone brings to two places, with its polarity, and when. */
interface Wave {
  readonly l: number;
  readonly r: number;
}

const times = (db: number): number => Math.exp((db * Math.LN10) / 20);

/** Pan laws in their textbook forms; how loud the centre is does not matter here. */
const PAN: { readonly [law: string]: (to: number) => readonly [number, number] } = {
  sine: (to) => [Math.cos((to * Math.PI) / 2), Math.sin((to * Math.PI) / 2)],
  root: (to) => [Math.sqrt(1 - to), Math.sqrt(to)],
  linear: (to) => [1 - to, to],
};

const same = (w: Wave): Wave => w;
const swap = ({ l, r }: Wave): Wave => ({ l: r, r: l });
const fold = ({ l, r }: Wave): Wave => ({ l: l + r, r: l + r });
const leftOnly = ({ l }: Wave): Wave => ({ l, r: 0 });
const rightOnly = ({ r }: Wave): Wave => ({ l: 0, r });

/** What a fault does on the way from the channels to the ears. */
interface Wrong {
  /** The channel at fault is not there. */
  readonly isGone?: boolean;
  /** The leads of the overheads are in each other's channels. */
  readonly areCrossed?: boolean;
  /** Where a pan is instead of where it is set. */
  readonly turn?: (set: number, isCulprit: boolean) => number;
  readonly bus?: (w: Wave) => Wave;
  /** By how many inputs the musician's mixer is off. */
  readonly shift?: number;
  /** The switches of the musician's mixer, against the plan. */
  readonly isFlipped?: boolean;
  readonly isFolded?: boolean;
  readonly ears?: (w: Wave) => Wave;
}

const WRONG: { readonly [fault in Fault]: Wrong } = {
  planned: {},
  swapped: { bus: swap },
  flipped: { isFlipped: true },
  "ears-swapped": { ears: swap },
  "left-only": { bus: leftOnly },
  "right-only": { bus: rightOnly },
  "left-in-both": { bus: ({ l }) => ({ l, r: l }) },
  "right-in-both": { bus: ({ r }) => ({ l: r, r }) },
  folded: { isFolded: true },
  "left-ear-dead": { ears: rightOnly },
  "right-ear-dead": { ears: leftOnly },
  inverted: { bus: ({ l, r }) => ({ l, r: -r }) },
  "inputs-up": { shift: 1 },
  "inputs-down": { shift: -1 },
  "all-centred": { turn: () => 0 },
  silent: { bus: () => ({ l: 0, r: 0 }) },
  // Nothing is off on this stage.
  "switched-on": {},
  "overheads-crossed": { areCrossed: true },
  "wrong-side": { turn: (set, isCulprit) => (isCulprit ? -set : set) },
  missing: { isGone: true },
};

const isAbove = (setup: SetupFile, place: Id | null): boolean =>
  setup.kit.pieces.some((p) => p.id === place && p.kind === "overhead");

/** Metres from a drum to an overhead that hangs 1.1 m above it. */
const metres = (setup: SetupFile, from: Id, to: Id | null): number => {
  const [a, b] = [from, to].map((id) => setup.kit.pieces.find((p) => p.id === id));
  if (!a || !b) throw new Error("no such place");
  return Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2 + 1.1 ** 2);
};

/** How a hit arrives at a microphone: its level, and what a later arrival than the other overhead's costs. */
const arrival = (evening: Evening, drum: Id, place: Id | null): number => {
  const { setup, overheads } = evening;
  if (place === drum) return 1;
  if (!isAbove(setup, place)) return 0;
  const all = setup.channels.filter((s) => isAbove(setup, s.piece)).map((s) => metres(setup, drum, s.piece));
  const near = Math.min(...all);
  const away = metres(setup, drum, place);
  const late = ((away - near) / 0.343) * 6;
  return times(overheads - 20 * Math.log10(away / near) - Math.min(9, late));
};

/** What a hit brings to the two outputs of the listener's bus at the desk. */
const atDesk = (evening: Evening, drum: Id, muteOverheads: boolean): Wave[] => {
  const { setup, fault, channel: culprit } = evening;
  const [bus] = setup.buses;
  const pan = PAN[setup.desk.law];
  if (!bus || !pan) throw new Error("not for this stage");
  const above = setup.channels.filter((s) => isAbove(setup, s.piece)).map((s) => s.piece);
  const waves: Wave[] = [];
  for (const send of bus.sends) {
    const channel = setup.channels.find((s) => s.id === send.channel);
    if (!channel || channel.muted || send.level === null) continue;
    if (muteOverheads && isAbove(setup, channel.piece)) continue;
    const { isGone, areCrossed, turn } = WRONG[fault];
    if (isGone && channel.id === culprit) continue;
    // Crossed: the lead of one overhead is in the channel of the other.
    const lead =
      areCrossed && isAbove(setup, channel.piece)
        ? (above[above.length - 1 - above.indexOf(channel.piece)] ?? null)
        : channel.piece;
    const set = send.pan ?? channel.pan;
    const knob = turn ? turn(set, channel.id === culprit) : set;
    const level = arrival(evening, drum, lead) * times(send.level) * (channel.inverted ? -1 : 1);
    const [l, r] = pan((knob + 1) / 2);
    waves.push({ l: level * l, r: level * r });
  }
  return waves;
};

/** What a hit brings to the left and right ear: power of each, and the product that tells polarity. */
const atEars = (
  evening: Evening,
  listener: SetupFile["listeners"][number],
  drum: Id,
  action: string | null,
) => {
  const { setup, fault } = evening;
  const [bus] = setup.buses;
  const desk = atDesk(evening, drum, action === "mute-overheads" || action === "mono").map(
    WRONG[fault].bus ?? same,
  );
  // The two inputs that are chosen at the listener's mixer, and what lies in them.
  const inputs = setup.monitor.inputs.map((input) => (input?.feed.kind === "bus" ? input.feed : null));
  const first = inputs.findIndex((feed) => feed?.bus === bus?.id);
  const { shift = 0, isFlipped = false, isFolded = false, ears = same } = WRONG[fault];
  const lying = (w: Wave, at: number): number => {
    const feed = inputs[at];
    return feed ? (feed.side === "left" ? w.l : w.r) : 0;
  };
  let waves = desk.map((w) => ({ l: lying(w, first + shift), r: lying(w, first + 1 + shift) }));
  if (action === "first-input") waves = waves.map(leftOnly);
  if (listener.flipped !== isFlipped) waves = waves.map(swap);
  if (listener.mono || isFolded || action === "mono") waves = waves.map(fold);
  if (action === "balance-left") waves = waves.map(leftOnly);
  if (action === "balance-right") waves = waves.map(rightOnly);
  waves = waves.map(ears);
  let [left, right, both] = [0, 0, 0];
  for (const { l, r } of waves) {
    left += l * l;
    right += r * r;
    both += l * r;
  }
  return { left, right, both };
};

/** A normally distributed number (Box and Muller 1958). */
const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

const EACH: { readonly [answer in Answer]: true } = {
  left: true,
  middle: true,
  right: true,
  nothing: true,
  unclear: true,
};
const BUTTONS = Object.keys(EACH) as Answer[];

/** What somebody says of a hit, with something done before it. */
export const humanAnswer = (
  human: Human,
  evening: Evening,
  listener: SetupFile["listeners"][number],
  random: () => number,
): ((drum: Id, action: string | null) => Answer) => {
  const usual: Evening = { ...evening, fault: "planned", channel: null };
  return (drum, action) => {
    if (random() < human.lapses) return BUTTONS[Math.floor(random() * BUTTONS.length)] ?? "unclear";
    const { left, right, both } = atEars(evening, listener, drum, action);
    const meant = atEars(usual, listener, drum, null);
    const loud = 10 * Math.log10(Math.max(left, right) / Math.max(meant.left, meant.right));
    if (!(loud > -human.buried)) return "nothing";
    const apart = 10 * Math.log10(right / left) + human.rightEar + human.blur * normal(random);
    if (apart > human.threshold) return "right";
    if (apart < -human.threshold) return "left";
    // Two microphones on two sides are two sounds: only what is common to both ears has a polarity.
    if (both > -0.2 * Math.sqrt(left * right)) return "middle";
    if (human.saysSo) return "unclear";
    // Without a place and without the word for it: mostly in the middle, now and then at a side.
    const guess = random();
    return guess < 0.8 ? "middle" : guess < 0.9 ? "left" : "right";
  };
};

/** A kind of people, and of stages: some are tuned on, the others only measured. */
export interface Kind {
  readonly name: string;
  readonly human: (random: () => number) => Human;
  readonly overheads: number;
}

const between = (random: () => number, low: number, high: number): number => low + (high - low) * random();
const ordinary = (random: () => number): Human => ({
  threshold: between(random, 2, 8),
  rightEar: normal(random),
  blur: between(random, 1.5, 3),
  lapses: 0.05,
  saysSo: true,
  buried: between(random, 18, 30),
});

/** Whom a check meets. */
export const PEOPLE_KINDS: readonly Kind[] = [
  { name: "ordinary", human: ordinary, overheads: -12 },
  {
    name: "weak ear",
    human: (random) => ({ ...ordinary(random), rightEar: random() < 0.5 ? 6 : -6 }),
    overheads: -12,
  },
  { name: "loud overheads", human: ordinary, overheads: -6 },
  {
    name: "never “can’t place”",
    human: (random) => ({ ...ordinary(random), saysSo: false }),
    overheads: -12,
  },
];
