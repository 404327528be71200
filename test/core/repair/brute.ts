/*
 * Repairs of a pair by trying every combination, written apart from the product: it shares types with it and nothing
 * else. It keeps a plain picture of what is panned and patched how, changes that, and listens to it again.
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
  if (Math.abs(Math.cos(facing - psi)) < Math.sin(rad(20))) return null;
  const stage = [
    -piece.x * Math.cos(psi) + piece.y * Math.sin(psi),
    piece.x * Math.sin(psi) + piece.y * Math.cos(psi),
  ] as Two;
  return -stage[0] * Math.cos(facing) + stage[1] * Math.sin(facing);
};

const sideOf = (difference: number): number => (Math.abs(difference) < 1 ? 0 : Math.sign(difference));

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
  if (Math.abs(at) < 0.12) return { ...result, flat: Number(Math.abs(difference) > 6) };
  return {
    ...result,
    wrong: Number(side === -Math.sign(at)),
    flat: Number(side === 0),
    weight: Math.abs(at),
    score: at * Math.max(-1, Math.min(1, difference / 15)),
  };
};

export type Triple = [number, number, number];

const badness = (setup: Setup, world: World, who: Listener, heard: [string, Earphone][]): Triple => {
  let [bad, flat, weight, score] = [0, 0, 0, 0];
  for (const [id, ear] of heard) {
    const v = verdict(setup, world, who, id, ear);
    bad += v.wrong + v.lost;
    flat += v.flat;
    weight += v.weight;
    score += v.score;
  }
  return [bad, flat, -Math.round((weight === 0 ? 0 : score / weight) * 10) || 0];
};

/** One combination, with what it is weighed by. */
export interface Tried {
  key: string;
  first: Triple;
  others: Triple;
  inputs: number;
  moves: number;
  residual: number;
}

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

const canTell = (setup: Setup, who: Listener): boolean =>
  !who.mono &&
  Math.abs(Math.cos(((who.facing - setup.kit.yaw) * Math.PI) / 180)) >= Math.sin((20 * Math.PI) / 180);

/** Largest change of an ear against an exact mirror, or against no change where the turns cancel. */
const deviation = (before: Two, after: Two, mirrored: boolean): number => {
  const wanted: Two = mirrored ? [before[1], before[0]] : before;
  let most = 0;
  for (const ear of [0, 1] as const)
    if (wanted[ear] > 0 && after[ear] > 0) most = Math.max(most, Math.abs(db(after[ear]) - db(wanted[ear])));
  return Math.round(most * 1e9) / 1e9;
};

/** Every combination of what may be done for a bus. */
export const tryAll = (setup: Setup, bus: Bus, freeInputs: number): Tried[] => {
  const now = worldOf(setup, bus);
  const ids = [...now.pans.keys()];
  const on = setup.listeners.filter((l) => l.kind !== "audience" && l.bus === bus.id);
  const plain = (who: Listener): Listener => ({ ...who, flipped: false, mono: false });
  const sides = bus.stereo && !bus.folded;
  const bad = (world: World, who: Listener, id: string): number => {
    const v = verdict(setup, world, who, id, hearBus(setup, bus, world, id, who));
    return v.wrong + v.lost;
  };
  const helped = (who: Listener, before: World, after: (id: string) => World): string[] =>
    ids.filter((id) => bad(after(id), who, id) < bad(before, who, id));
  const able = on.filter((l) => canTell(setup, l.kind === "drummer" ? { ...l, facing: setup.kit.yaw } : l));
  const decider =
    able.find((l) => l.id === setup.preferences.first) ?? able.find((l) => l.kind === "drummer") ?? able[0];
  const audience = setup.listeners.find((l) => l.id === setup.preferences.first && l.kind === "audience");

  const tried: Tried[] = [];
  const states: [boolean, string][] = [];
  for (const swap of sides ? [true, false] : [false])
    for (const pan of ["keep", ...(sides ? ["sum"] : []), ...(setup.preferences.fohFixed ? [] : ["house"])])
      states.push([swap, pan]);
  if (sides) states.push([false, "fold"]);

  for (const [swap, pan] of states) {
    let world = swap ? swapped(setup, bus, now) : now;
    let moved: string[] = [];
    if (pan === "sum" && decider) {
      const before = world;
      moved = helped(decider, before, (id) => repanned(setup, before, [id]));
      world = repanned(setup, world, moved);
    }
    if (pan === "house") {
      const before = world;
      if (audience) {
        const wrong = (w: World, id: string) =>
          verdict(setup, w, audience, id, hearFoh(setup, w, id, audience)).wrong;
        moved = ids.filter((id) => wrong(housed(setup, bus, before, [id]), id) < wrong(before, id));
      } else if (decider) moved = helped(decider, before, (id) => housed(setup, bus, before, [id]));
      world = housed(setup, bus, world, moved);
    }
    if (pan === "fold") world = { ...world, folded: true };

    const turnedBy = (id: string): boolean => {
      const follows = pan === "sum" || bus.sends.find((s) => s.channel === id)?.pan === null;
      return swap !== (moved.includes(id) && follows);
    };
    const pairResidual =
      pan === "fold"
        ? 0
        : Math.max(
            0,
            ...ids.map((id) => {
              const who = plain(setup.listeners[0] as Listener);
              const [before, after] = [now, world].map((w) => hearBus(setup, bus, w, id, who).ears) as [
                Two,
                Two,
              ];
              return deviation(before, after, turnedBy(id));
            }),
          );
    const fohResidual =
      pan === "house"
        ? Math.max(
            0,
            ...moved.map((id) => {
              const who = plain(setup.listeners[0] as Listener);
              const [before, after] = [now, world].map((w) => hearFoh(setup, w, id, who).ears) as [Two, Two];
              return deviation(before, after, true);
            }),
          )
        : 0;

    // What each listener gets by each choice.
    const menu = setup.listeners.map((who) => {
      const hear = (w: World, as: Listener): Triple =>
        badness(
          setup,
          w,
          as,
          ids.map((id) => [id, hearBus(setup, bus, w, id, as)]),
        );
      if (!on.includes(who)) {
        let heard: [string, Earphone][] = [];
        if (who.kind === "audience")
          heard = setup.channels.filter((s) => !s.muted).map((s) => [s.id, hearFoh(setup, world, s.id, who)]);
        else {
          const other = setup.buses.find((s) => s.id === who.bus);
          if (other) {
            const its = worldOf(setup, other);
            its.pans = new Map(
              sounding(setup, other).map((s) => [s.channel, s.pan ?? (world.foh.get(s.channel) as number)]),
            );
            heard = [...its.pans.keys()].map((id) => [id, hearBus(setup, other, its, id, who)]);
          }
        }
        return [{ choice: "none", bad: badness(setup, world, who, heard), inputs: 0, moves: 0, residual: 0 }];
      }
      const shared = who.mono ? 0 : pairResidual;
      const options = [{ choice: "none", bad: hear(world, who), inputs: 0, moves: 0, residual: shared }];
      if (!sides) return options;
      const flipped = { ...who, flipped: !who.flipped };
      options.push({ choice: "flip", bad: hear(world, flipped), inputs: 0, moves: 1, residual: shared });
      const copy: World = { ...now, foh: world.foh };
      options.push({
        choice: "own reversed",
        bad: hear({ ...copy, reversed: !now.reversed }, who),
        inputs: 2,
        moves: 2,
        residual: 0,
      });
      const needs = helped(who, now, (id) => repanned(setup, now, [id]));
      const own = repanned(setup, copy, needs);
      const off = needs.map((id) =>
        deviation(
          hearBus(setup, bus, now, id, plain(who)).ears,
          hearBus(setup, bus, own, id, plain(who)).ears,
          true,
        ),
      );
      options.push({
        choice: "own panned",
        bad: hear(own, who),
        inputs: 2,
        moves: 2 + needs.length,
        residual: who.mono ? 0 : Math.max(0, ...off),
      });
      return options;
    });

    const walk = (at: number, so: Tried): void => {
      const who = setup.listeners[at];
      if (!who) {
        if (so.inputs <= freeInputs) tried.push(so);
        return;
      }
      for (const option of menu[at] ?? []) {
        const key = option.choice === "none" ? so.key : `${so.key} ${who.id}:${option.choice}`;
        const into = who.id === setup.preferences.first ? "first" : "others";
        const bus3 = so[into].map((n, i) => n + (option.bad[i] as number)) as Triple;
        walk(at + 1, {
          ...so,
          key,
          [into]: bus3,
          inputs: so.inputs + option.inputs,
          moves: so.moves + option.moves,
          residual: Math.max(so.residual, option.residual),
        });
      }
    };
    walk(0, {
      key: `${swap ? "swap" : "straight"} ${pan}`,
      first: [0, 0, 0],
      others: [0, 0, 0],
      inputs: 0,
      moves: (swap ? 1 : 0) + (pan === "fold" ? 1 : 0) + moved.length,
      residual: fohResidual,
    });
  }
  return tried;
};
