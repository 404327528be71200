import { BLANK_BUS, BLANK_CHANNEL, BLANK_SEND } from "../../../src/core/model/defaults";
import type {
  Bus,
  Channel,
  LawId,
  Listener,
  MonitorInput,
  Piece,
  Send,
  Setup,
} from "../../../src/core/model/setup";
import { numbers as chance } from "../../tools/chance.mjs";
import { DESK, MONITOR_REST } from "../desk";

/** Numbers 0…1 that are the same in every run; seeds that are neighbours lie far apart. */
export const numbers = (seed: number): (() => number) => chance(seed * 2654435761 + 4);

export { DESK };

export const BUS: Bus = {
  ...BLANK_BUS,
  id: "m1",
  name: "Drums",
  stereo: true,
};

export const channel = (id: string, over: Partial<Channel> = {}): Channel => ({
  ...BLANK_CHANNEL,
  id,
  name: id.toUpperCase(),
  kind: "drum",
  gatedRms: -20,
  peak: -10,
  ...over,
});

export const piece = (id: string, x: number, y = 0.5, over: Partial<Piece> = {}): Piece => ({
  id,
  name: id,
  kind: "other",
  x,
  y,
  limbs: ["hand"],
  player: "drummer",
  ...over,
});

export const listener = (id: string, over: Partial<Listener> = {}): Listener => ({
  id,
  name: id,
  kind: "performer",
  x: 0,
  y: 2,
  facing: 0,
  bus: "m1",
  flipped: false,
  mono: false,
  ...over,
});

export const AUDIENCE = listener("audience", { name: "Audience", kind: "audience", bus: null, facing: 180 });
export const DRUMMER = listener("mara", { name: "Mara, drums", kind: "drummer", y: 0 });

export const side = (bus: string, side: "left" | "right", trim = 0): MonitorInput => ({
  feed: { kind: "bus", bus, side: side },
  port: null,
  on: true,
  trim,
});

/** Five at a right-handed kit, panned for the audience; the drummer and the audience. */
export const kit = (over: Partial<Setup> = {}): Setup => {
  const places = { hat: -0.5, tom: -0.17, kick: 0, floor: 0.5, ride: 0.55 };
  const pans = { hat: 0.7, tom: 0.3, kick: 0, floor: -0.7, ride: -0.5 };
  const ids = Object.keys(places) as (keyof typeof places)[];
  const channels = ids.map((id) => channel(id, { piece: id, pan: pans[id] }));
  return {
    kit: { hand: "right", yaw: 0, pieces: ids.map((id) => piece(id, places[id])) },
    desk: DESK,
    channels,
    buses: [
      {
        ...BUS,
        sends: channels.map((s) => ({
          channel: s.id,
          on: true,
          level: -6,
          tap: "post-fader" as const,
          pan: null,
        })),
      },
    ],
    listeners: [AUDIENCE, DRUMMER],
    monitor: {
      inputCount: 8,
      inputs: [null, null, side("m1", "left"), side("m1", "right"), null, null, null, null],
      maxInputDbu: 20,
      ...MONITOR_REST,
    },
    preferences: { first: "mara", fohFixed: true, inputsFixed: false, targetHeadroom: 6 },
    earphone: null,
    recording: null,
    ...over,
  };
};

/** A setup with another channel in the first bus. */
export const withChannel = (setup: Setup, added: Channel, send: Partial<Send> = {}): Setup => ({
  ...setup,
  channels: [...setup.channels, added],
  buses: setup.buses.map((s, at) =>
    at === 0 ? { ...s, sends: [...s.sends, { ...BLANK_SEND, channel: added.id, level: -6, ...send }] } : s,
  ),
});

const LAWS: readonly LawId[] = ["sine", "root", "linear", "cosine2"];

/** A random setup of everything that bears on a recommendation: 2 to 4 listeners of the first bus or not, 0 to 7 channels. */
export const randomSetup = (seed: number): Setup => {
  const next = numbers(seed);
  for (let warm = 0; warm < 5; warm += 1) next();
  const spread = (size: number): number => (2 * next() - 1) * size;
  const chance = (p: number): boolean => next() < p;
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T;
  const angle = (): number => pick([0, 0, 180, 180, 90, 13 * Math.floor(spread(13))]);
  const pan = (): number =>
    chance(0.3) ? pick([-1, 0, 1]) : chance(0.5) ? spread(1) : Math.round(spread(100)) / 100;
  const pieces = Array.from({ length: 6 }, (_, i) => piece(`p${i}`, spread(0.8), spread(0.8)));
  const channels = Array.from({ length: Math.floor(next() * 8) }, (_, i) =>
    channel(`s${i}`, {
      piece: chance(0.8) ? `p${Math.floor(next() * 6)}` : null,
      lines: chance(0.2) ? 2 : 1,
      pan: pan(),
      muted: chance(0.1),
      inverted: chance(0.1),
      keepSides: chance(0.2),
    }),
  );
  const sends = channels
    .filter(() => chance(0.9))
    .map(
      (s): Send => ({
        ...BLANK_SEND,
        channel: s.id,
        level: chance(0.05) ? null : spread(6),
        pan: chance(0.3) ? pan() : null,
      }),
    );
  const trims = (): [number, number] => (chance(0.7) ? [0, 0] : [spread(4), spread(4)]);
  const bus: Bus = {
    ...BUS,
    stereo: !chance(0.04),
    sends,
    sideTrim: trims(),
    sideInverted: [chance(0.1), chance(0.1)],
    swapped: chance(0.3),
    folded: chance(0.05),
  };
  const other: Bus = { ...BUS, id: "m2", name: "Other", sends: sends.slice(0, 3), swapped: chance(0.3) };
  const [left, right] = trims();
  const [a, b] = [side("m1", "left", left), side("m1", "right", right)];
  const lying = pick([
    [a, b, null, null],
    [b, a, null, null],
    [a, null, b, null],
    [a, null, null, null],
    [null, null, null, null],
  ]);
  const listeners = [
    { ...AUDIENCE, flipped: chance(0.1), mono: chance(0.05) },
    { ...DRUMMER, flipped: chance(0.2), mono: chance(0.1) },
    ...Array.from({ length: Math.floor(next() * 3) }, (_, i) =>
      listener(`l${i}`, {
        facing: angle(),
        bus: chance(0.85) ? "m1" : pick([null, "m2"]),
        flipped: chance(0.2),
        mono: chance(0.1),
      }),
    ),
  ];
  const off = chance(0.15) ? pick([[a], [b], [a, b]]) : [];
  const patched = lying.map((input): MonitorInput | null =>
    input && off.includes(input) ? { ...input, on: false } : input,
  );
  return {
    kit: { hand: "right", yaw: angle(), pieces },
    desk: {
      ...DESK,
      law: pick(LAWS),
      reference: pick(["sides", "centre"]),
      stereoLaw: pick(["balance-linear", "pan"]),
      panSteps: pick([10, 63, 100]),
    },
    channels,
    buses: [bus, other],
    listeners,
    monitor: { inputCount: 4 + Math.floor(next() * 5), inputs: patched, maxInputDbu: 20, ...MONITOR_REST },
    preferences: {
      first: pick(listeners).id,
      fohFixed: chance(0.5),
      inputsFixed: chance(0.2),
      targetHeadroom: 6,
    },
    earphone: null,
    recording: null,
  };
};
