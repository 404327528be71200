/*
 * The best that can be done for a bus, by going through every subset of channels to their mirrored pan, every swap,
 * flip, bus of one's own and fold; written apart from the product: it shares types with it and nothing else. It keeps
 * a plain picture of what is panned and patched how, changes that, and listens to it again.
 */
import type { Bus, Channel, Listener, MonitorInput, Setup } from "../../../src/core/model/setup";

type Two = [number, number];

const steps = (setup: Setup, pan: number): number => {
  const n = setup.desk.panSteps;
  return (Math.sign(pan) * Math.round(Math.abs(pan) * n)) / n;
};

/** The share of the way to one side, as a gain. */
const curve = (law: string, t: number): number => {
  if (t <= 0) return 0;
  if (law === "linear") return t;
  if (law === "root") return t ** 0.5;
  const sine = t >= 1 ? 1 : Math.cos(((1 - t) * Math.PI) / 2);
  return law === "cosine2" ? sine * sine : sine;
};

/** Gains of each channel to the left and right. */
const panned = (setup: Setup, channel: Channel, pan: number): Two[] => {
  const { law, reference, stereoLaw: twoChannel } = setup.desk;
  if (channel.lines === 1) {
    const up = reference === "centre" ? 1 / curve(law, 0.5) : 1;
    return [[up * curve(law, (1 - pan) / 2), up * curve(law, (1 + pan) / 2)]];
  }
  const stays = twoChannel === "pan" ? curve("sine", 1 - Math.abs(pan)) : 1 - Math.abs(pan);
  const over = twoChannel === "pan" ? curve("sine", Math.abs(pan)) : 0;
  return pan > 0
    ? [
        [stays, over],
        [0, 1],
      ]
    : [
        [1, 0],
        [over, stays],
      ];
};

const db = (ratio: number): number => 20 * Math.log10(ratio);
const gain = (level: number): number => 10 ** (level / 20);

/** How the pair is panned and patched, in a picture of its own. */
interface World {
  /** Pan in force of each send of the bus; absent when it does not sound. */
  pans: Map<string, number>;
  foh: Map<string, number>;
  reversed: boolean;
  /** Trim of the input of the left and right side, dB; −∞ where it is switched off. */
  inputs: Two;
  folded: boolean;
}

const channelOf = (setup: Setup, id: string): Channel => setup.channels.find((s) => s.id === id) as Channel;

const sounding = (setup: Setup, bus: Bus) =>
  bus.sends.filter((s) => s.level !== null && !channelOf(setup, s.channel).muted);

/** The inputs of a side: the one by which it arrives first. */
const inputAt = (setup: Setup, bus: Bus, side: string): number => {
  const mine = setup.monitor.inputs
    .map((input, at) => ({ input, at }))
    .filter(
      ({ input }) => input?.feed.kind === "bus" && input.feed.bus === bus.id && input.feed.side === side,
    )
    .sort((a, b) => (a.input?.on ? 0 : 1) - (b.input?.on ? 0 : 1) || a.at - b.at);
  return mine[0]?.at ?? -1;
};

const throughInput = (input: MonitorInput | null | undefined): number =>
  !input ? 0 : input.on ? input.trim : Number.NEGATIVE_INFINITY;

const worldOf = (setup: Setup, bus: Bus): World => {
  const [l, r] = [inputAt(setup, bus, "left"), inputAt(setup, bus, "right")];
  const neighbours = l >= 0 && r >= 0 && Math.abs(l - r) === 1;
  return {
    pans: new Map(sounding(setup, bus).map((s) => [s.channel, s.pan ?? channelOf(setup, s.channel).pan])),
    foh: new Map(setup.channels.map((s) => [s.id, s.pan])),
    reversed: neighbours ? r < l : bus.swapped,
    inputs: [throughInput(setup.monitor.inputs[l]), throughInput(setup.monitor.inputs[bus.stereo ? r : l])],
    folded: bus.folded,
  };
};

/** What reaches the ears of one source: left and right, whether its sides are exchanged or gone. */
interface Earphone {
  ears: Two;
  turned: boolean;
  gone: boolean;
}

const energy = (channels: Two[]): Two => [
  Math.hypot(...channels.map((c) => c[0])),
  Math.hypot(...channels.map((c) => c[1])),
];

/** Both sides in one; opposite ones leave nothing but the rounding of the arithmetic. */
const oneOf = ([l, r]: Two): Two => {
  const left = Math.abs(l + r) < 1e-9 * Math.abs(l) ? 0 : l + r;
  return [left, left];
};

const hearBus = (setup: Setup, bus: Bus, world: World, id: string, who: Listener): Earphone => {
  const send = bus.sends.find((s) => s.channel === id);
  let channels = panned(setup, channelOf(setup, id), world.pans.get(id) ?? 0);
  if (!bus.stereo) channels = channels.map(() => [1, 1]);
  else if (world.folded) channels = channels.map(([l, r]) => [l + r, l + r]);
  const side = (side: 0 | 1): number =>
    (bus.sideInverted[side] ? -1 : 1) *
    gain((send?.level ?? 0) + bus.trim + bus.sideTrim[side] + world.inputs[side]);
  const out = channels.map(([l, r]): Two => [l * side(0), r * side(1)]);
  let ears = energy(who.mono ? out.map(oneOf) : out);
  if (world.reversed !== (who.flipped && !who.mono)) ears = [ears[1], ears[0]];
  return {
    ears,
    turned: world.reversed !== who.flipped,
    gone: !bus.stereo || world.folded || who.mono,
  };
};

const hearFoh = (setup: Setup, world: World, id: string, who: Listener): Earphone => {
  const channels = panned(setup, channelOf(setup, id), world.foh.get(id) as number);
  let ears = energy(who.mono ? channels.map(oneOf) : channels);
  if (who.flipped && !who.mono) ears = [ears[1], ears[0]];
  return { ears, turned: who.flipped, gone: who.mono };
};

/** Metres to a listener's right of a piece; null where there is no left and right. On the stage: x to house right, y to the audience. */
const offset = (setup: Setup, who: Listener, id: string | null): number | null => {
  const piece = setup.kit.pieces.find((p) => p.id === id);
  if (!piece) return null;
  const rad = (a: number): number => (a * Math.PI) / 180;
  const psi = rad(setup.kit.yaw);
  const facing = rad(who.kind === "drummer" ? setup.kit.yaw : who.kind === "audience" ? 180 : who.facing);
  if (Math.abs(Math.cos(facing - psi)) < Math.sin(rad(20)) - SLACK) return null;
  const stage = [
    -piece.x * Math.cos(psi) + piece.y * Math.sin(psi),
    piece.x * Math.sin(psi) + piece.y * Math.cos(psi),
  ] as Two;
  return -stage[0] * Math.cos(facing) + stage[1] * Math.sin(facing);
};

/** What the arithmetic may be off by at a limit. */
const SLACK = 1e-9;
const sideOf = (difference: number): number => (Math.abs(difference) < 1 - SLACK ? 0 : Math.sign(difference));

/** Wrong, lost, flat of one channel, and what it adds to the score. */
const verdict = (setup: Setup, world: World, who: Listener, id: string, { ears, turned, gone }: Earphone) => {
  const channel = channelOf(setup, id);
  const silent = ears[0] === 0 && ears[1] === 0;
  const difference = ears[0] === ears[1] ? 0 : db(ears[1]) - db(ears[0]);
  const at = offset(setup, who, channel.piece);
  const side = sideOf(difference);
  let lost = 0;
  if (channel.keepSides && !silent) {
    const [l, r] = energy(panned(setup, channel, world.foh.get(id) as number));
    const meant = sideOf(l === r ? 0 : db(r) - db(l));
    lost = Number(channel.lines === 2 ? turned || gone : meant !== 0 && meant !== side);
  }
  const result = { wrong: 0, lost, flat: 0, weight: 0, score: 0 };
  if (at === null || silent) return result;
  if (Math.abs(at) < 0.12 - SLACK) return { ...result, flat: Number(Math.abs(difference) > 6 + SLACK) };
  return {
    ...result,
    wrong: Number(side === -Math.sign(at)),
    flat: Number(side === 0),
    weight: Math.abs(at),
    score: at * Math.max(-1, Math.min(1, difference / 15)),
  };
};

/** Wrong and lost sides, flats, and the score in whole tenths, negative: smaller is better from the first figure on. */
export type Triple = readonly [number, number, number];

/** The best plan by the order of weight: who matters most, the others, inputs, moves. */
export interface Best {
  readonly first: Triple;
  readonly others: Triple;
  readonly inputs: number;
  readonly moves: number;
}

/** Which of two is better: negative for the former. */
export const order = (a: Best, b: Best): number => {
  const figures = (x: Best): number[] => [...x.first, ...x.others, x.inputs, x.moves];
  const [of, against] = [figures(a), figures(b)];
  const at = of.findIndex((n, i) => n !== against[i]);
  return at < 0 ? 0 : (of[at] as number) - (against[at] as number);
};

const swapped = (setup: Setup, bus: Bus, world: World): World => {
  const both = inputAt(setup, bus, "left") >= 0 && inputAt(setup, bus, "right") >= 0;
  return {
    ...world,
    reversed: !world.reversed,
    inputs: both ? [world.inputs[1], world.inputs[0]] : world.inputs,
  };
};

const repanned = (setup: Setup, world: World, ids: string[]): World => ({
  ...world,
  pans: new Map([...world.pans].map(([id, pan]) => [id, ids.includes(id) ? steps(setup, -pan) || 0 : pan])),
});

const housed = (setup: Setup, bus: Bus, world: World, ids: string[]): World => {
  const foh = new Map(
    [...world.foh].map(([id, pan]) => [id, ids.includes(id) ? steps(setup, -pan) || 0 : pan]),
  );
  const follows = (id: string): boolean => bus.sends.find((s) => s.channel === id)?.pan === null;
  const pans = new Map([...world.pans].map(([id, pan]) => [id, follows(id) ? (foh.get(id) as number) : pan]));
  return { ...world, foh, pans };
};

type Verdict = ReturnType<typeof verdict>;

const badnessOf = (verdicts: readonly Verdict[]): Triple => {
  let [bad, flat, weight, score] = [0, 0, 0, 0];
  for (const v of verdicts) {
    bad += v.wrong + v.lost;
    flat += v.flat;
    weight += v.weight;
    score += v.score;
  }
  return [bad, flat, -Math.round((weight === 0 ? 0 : score / weight) * 10 + SLACK) || 0];
};

const bus3 = (a: Triple, b: Triple): Triple => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const bits = (subset: number): number => (subset === 0 ? 0 : (subset & 1) + bits(subset >> 1));

/** The best of all, by trying everything. */
export const tryAll = (setup: Setup, bus: Bus, freeInputs: number): Best => {
  const now = worldOf(setup, bus);
  const ids = [...now.pans.keys()];
  const subsets = Array.from({ length: 2 ** ids.length }, (_, i) => i);
  const on = setup.listeners.filter((l) => l.kind !== "audience" && l.bus === bus.id);
  const sides = bus.stereo && !bus.folded;
  const follows = ids.map((id) => bus.sends.find((s) => s.channel === id)?.pan === null);
  const picked = (subset: number): string[] => ids.filter((_, at) => subset & (1 << at));

  // One channel bears on no other, so each is listened to once in every way.
  const known = new Map<string, Verdict>();
  const judge = (
    who: Listener,
    at: number,
    over: boolean,
    foh: boolean,
    swap: boolean,
    fold: boolean,
  ): Verdict => {
    const key = `${who.id} ${who.flipped} ${at} ${over} ${foh} ${swap} ${fold}`;
    const seen = known.get(key);
    if (seen) return seen;
    const id = ids[at] as string;
    let world = swap ? swapped(setup, bus, now) : now;
    if (over) world = repanned(setup, world, [id]);
    if (foh) world = { ...world, foh: housed(setup, bus, world, [id]).foh };
    if (fold) world = { ...world, folded: true };
    const fresh = verdict(setup, world, who, id, hearBus(setup, bus, world, id, who));
    known.set(key, fresh);
    return fresh;
  };
  const shared = (who: Listener, subset: number, pan: string, swap: boolean, fold: boolean): Triple =>
    badnessOf(
      ids.map((_, at) => {
        const is = (subset & (1 << at)) !== 0;
        return judge(who, at, is && (pan === "bus" || follows[at] === true), is && pan === "foh", swap, fold);
      }),
    );

  interface Choice {
    readonly bad: Triple;
    readonly inputs: number;
    readonly moves: number;
  }
  const three = (a: Triple, b: Triple): number => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];
  const owns = new Map<string, Choice>();
  /** The best copy of the bus for somebody alone: as it is or swapped, with any subset mirrored in it. */
  const own = (who: Listener, foh: number): Choice => {
    const key = `${who.id} ${foh}`;
    let best = owns.get(key);
    if (best) return best;
    // A copy in the other order is an exact mirror of what is heard now, with the trims that go with its sides.
    for (const flip of [false, true])
      for (const subset of subsets) {
        const bad = badnessOf(
          ids.map((_, at) =>
            judge(
              { ...who, flipped: who.flipped !== flip },
              at,
              (subset & (1 << at)) !== 0,
              (foh & (1 << at)) !== 0,
              false,
              false,
            ),
          ),
        );
        const choice = { bad, inputs: 2, moves: 2 + bits(subset) };
        if (!best || (three(bad, best.bad) || choice.moves - best.moves) < 0) best = choice;
      }
    owns.set(key, best as Choice);
    return best as Choice;
  };

  const elsewhere = (who: Listener, foh: number): Triple => {
    const world = housed(setup, bus, now, picked(foh));
    if (who.kind === "audience")
      return badnessOf(
        setup.channels
          .filter((s) => !s.muted)
          .map((s) => verdict(setup, world, who, s.id, hearFoh(setup, world, s.id, who))),
      );
    const other = setup.buses.find((s) => s.id === who.bus);
    if (!other) return [0, 0, 0];
    const pans = sounding(setup, other).map(
      (s) => [s.channel, s.pan ?? (world.foh.get(s.channel) as number)] as const,
    );
    const its = { ...worldOf(setup, other), pans: new Map(pans), foh: world.foh };
    return badnessOf(pans.map(([id]) => verdict(setup, its, who, id, hearBus(setup, other, its, id, who))));
  };

  let best: Best | undefined;
  const attempt = (swap: boolean, pan: string, subset: number, fold: boolean): void => {
    const foh = pan === "foh" ? subset : 0;
    let plans: Best[] = [
      {
        first: [0, 0, 0],
        others: [0, 0, 0],
        inputs: 0,
        moves: Number(swap) + Number(fold) + bits(subset),
      },
    ];
    for (const who of setup.listeners) {
      const choices: Choice[] = [];
      if (!on.includes(who)) choices.push({ bad: elsewhere(who, foh), inputs: 0, moves: 0 });
      else {
        choices.push({ bad: shared(who, subset, pan, swap, fold), inputs: 0, moves: 0 });
        if (sides) {
          const flipped = { ...who, flipped: !who.flipped };
          choices.push({ bad: shared(flipped, subset, pan, swap, fold), inputs: 0, moves: 1 });
          choices.push(own(who, foh));
        }
      }
      const into = who.id === setup.preferences.first ? "first" : "others";
      plans = plans.flatMap((plan) =>
        choices.map((c) => ({
          ...plan,
          [into]: bus3(plan[into], c.bad),
          inputs: plan.inputs + c.inputs,
          moves: plan.moves + c.moves,
        })),
      );
    }
    for (const plan of plans) if (plan.inputs <= freeInputs && (!best || order(plan, best) < 0)) best = plan;
  };
  for (const swap of sides ? [false, true] : [false])
    for (const pan of [...(sides ? ["bus"] : []), ...(setup.preferences.fohFixed ? [] : ["foh"])])
      for (const subset of subsets) attempt(swap, pan, subset, false);
  attempt(false, "bus", 0, false);
  if (sides) attempt(false, "bus", 0, true);
  return best as Best;
};
