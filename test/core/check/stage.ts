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
  readonly fault: string;
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
    if (fault === "missing" && channel.id === culprit) continue;
    // Crossed: the lead of one overhead is in the channel of the other.
    const lead =
      fault === "overheads-crossed" && isAbove(setup, channel.piece)
        ? (above[above.length - 1 - above.indexOf(channel.piece)] ?? null)
        : channel.piece;
    let knob = send.pan ?? channel.pan;
    if (fault === "all-centred") knob = 0;
    if (fault === "wrong-side" && channel.id === culprit) knob = -knob;
    const level = arrival(evening, drum, lead) * times(send.level) * (channel.inverted ? -1 : 1);
    const [l, r] = pan((knob + 1) / 2);
    waves.push({ l: level * l, r: level * r });
  }
  return waves;
};

const BUS: { readonly [fault: string]: (w: Wave) => Wave } = {
  "left-only": ({ l }) => ({ l, r: 0 }),
  "right-only": ({ r }) => ({ l: 0, r }),
  "left-in-both": ({ l }) => ({ l, r: l }),
  "right-in-both": ({ r }) => ({ l: r, r }),
  inverted: ({ l, r }) => ({ l, r: -r }),
  silent: () => ({ l: 0, r: 0 }),
  swapped: ({ l, r }) => ({ l: r, r: l }),
};
const swap = ({ l, r }: Wave): Wave => ({ l: r, r: l });
const fold = ({ l, r }: Wave): Wave => ({ l: l + r, r: l + r });

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
    (w) => BUS[fault]?.(w) ?? w,
  );
  // The two inputs that are chosen at the listener's mixer, and what lies in them.
  const inputs = setup.monitor.inputs.map((input) => (input?.feed.kind === "bus" ? input.feed : null));
  const first = inputs.findIndex((feed) => feed?.bus === bus?.id);
  const shift = fault === "inputs-up" ? 1 : fault === "inputs-down" ? -1 : 0;
  const lying = (w: Wave, at: number): number => {
    const feed = inputs[at];
    return feed ? (feed.side === "left" ? w.l : w.r) : 0;
  };
  let waves = desk.map((w) => ({ l: lying(w, first + shift), r: lying(w, first + 1 + shift) }));
  if (action === "first-input") waves = waves.map(({ l }) => ({ l, r: 0 }));
  if (listener.flipped !== (fault === "flipped")) waves = waves.map(swap);
  if (listener.mono || fault === "folded" || action === "mono") waves = waves.map(fold);
  if (action === "balance-left") waves = waves.map(({ l }) => ({ l, r: 0 }));
  if (action === "balance-right") waves = waves.map(({ r }) => ({ l: 0, r }));
  if (fault === "ears-swapped") waves = waves.map(swap);
  if (fault === "left-ear-dead") waves = waves.map(({ r }) => ({ l: 0, r }));
  if (fault === "right-ear-dead") waves = waves.map(({ l }) => ({ l, r: 0 }));
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

const BUTTONS: readonly Answer[] = ["left", "middle", "right", "nothing", "unclear"];

/** What somebody says of a hit, with something done before it. */
export const humanAnswer = (
  human: Human,
  evening: Evening,
  listener: SetupFile["listeners"][number],
  random: () => number,
): ((drum: Id, action: string | null) => Answer) => {
  const usual = { ...evening, fault: "planned", channel: null };
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
