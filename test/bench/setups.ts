import { BLANK_BUS, BLANK_CHANNEL, BLANK_INPUT, BLANK_SEND } from "../../src/core/model/defaults";
import type {
  Answer,
  Bus,
  Channel,
  ChannelKind,
  Limb,
  Listener,
  MonitorInput,
  Piece,
  Setup,
} from "../../src/core/model/setup";
import { LIMITS } from "../../src/document/limits";
import type { SetupFile } from "../../src/document/schema";
import { DESK, MONITOR_REST } from "../core/desk";
import { numbers } from "../tools/chance.mjs";

/*
 * The setups that benches measure on. Written in TypeScript, so that a name of the model that changes is found by the
 * type checker and not by the bench that no longer runs.
 */

const repeat = <T, U>(list: readonly T[], count: number, change: (item: T, at: number) => U): U[] =>
  Array.from({ length: count }, (_, at) => change(list[at % list.length] as T, at));

/**
 * The worked example with more of everything: its drums and their pieces over and over, all in its first bus.
 * @param count channels
 * @param ears listeners, the audience among them
 */
export const crowded = (example: SetupFile, count: number, ears: number): SetupFile => {
  const placed = example.channels.filter((channel) => channel.piece !== null);
  const pieceOf = (id: string | null) => example.kit.pieces.find((piece) => piece.id === id) as Piece;
  const bus = example.buses[0] as Bus;
  const audience = example.listeners.filter(({ kind }) => kind === "audience");
  const heard = example.listeners.filter(({ kind }) => kind !== "audience");
  return {
    ...example,
    kit: {
      ...example.kit,
      pieces: repeat(placed, Math.min(count, LIMITS.pieces), (channel, at) => ({
        ...pieceOf(channel.piece),
        id: `p${at}`,
      })),
    },
    channels: repeat(placed, count, (channel, at) => ({
      ...channel,
      id: `c${at}`,
      name: `${channel.name} ${at}`,
      numbers: [at + 1],
      piece: `p${at % LIMITS.pieces}`,
    })),
    buses: [{ ...bus, sends: repeat(bus.sends, count, (send, at) => ({ ...send, channel: `c${at}` })) }],
    listeners: [
      ...audience,
      ...repeat(heard, ears - 1, (one, at) => ({ ...one, id: `l${at}`, bus: bus.id })),
    ],
    preferences: { ...example.preferences, first: "l0" },
    monitor: {
      ...example.monitor,
      inputs: example.monitor.inputs.filter(
        (input) => input?.feed.kind === "bus" && input.feed.bus === bus.id,
      ),
    },
  };
};

/**
 * As much as a setup may hold, with names as long as they may be: every input taken, every bus with every channel.
 * @param length characters of a name
 */
export const filled = (example: SetupFile, length: number = LIMITS.name): SetupFile => {
  const base = crowded(example, LIMITS.channels, LIMITS.listeners);
  const long = (name: string): string => `${name} `.padEnd(length, "named at length ").slice(0, length);
  const bus = base.buses[0] as Bus;
  const buses = Array.from({ length: LIMITS.buses }, (_, at) => ({
    ...bus,
    id: `m${at + 1}`,
    name: long(`Bus ${at + 1}`),
  }));
  return {
    ...base,
    name: "Everything at its limit",
    channels: base.channels.map((channel) => ({ ...channel, name: long(channel.name) })),
    buses,
    listeners: base.listeners.map((listener, at) => ({
      ...listener,
      name: long(`Listener ${at}`),
      bus: listener.kind === "audience" ? null : (buses[at % buses.length] as Bus).id,
    })),
    monitor: {
      ...base.monitor,
      inputCount: 64,
      inputs: Array.from({ length: LIMITS.inputs }, (_, at): MonitorInput => {
        const feed =
          at < 2
            ? ({ kind: "bus", bus: bus.id, side: at === 0 ? "left" : "right" } as const)
            : ({ kind: "channel", channel: `c${at}`, side: "both" } as const);
        return { ...BLANK_INPUT, feed, port: at + 1 };
      }),
    },
  };
};

/** A drum with a place of its own. */
const struck = (
  id: string,
  x: number,
  y: number,
  limbs: readonly Limb[] = ["hand"],
  player = "drummer",
): Piece => ({
  id,
  name: id,
  kind: "other",
  x,
  y,
  limbs,
  player,
});

const listenerAt = (at: number, bus: string | null, x: number, y: number, facing: number) => ({
  id: `l${at}`,
  name: `Listener ${at}`,
  kind: (["audience", "drummer"] as const)[at] ?? ("performer" as const),
  x,
  y,
  facing: at === 0 ? 180 : facing,
  bus: at === 0 ? null : bus,
  flipped: false,
  mono: false,
});

const sideInput = (bus: string, side: "left" | "right", trim = 0): MonitorInput => ({
  ...BLANK_INPUT,
  feed: { kind: "bus", bus, side },
  trim,
});

/** How a setup for the recommendation lies. */
export type ImageCase = "usual" | "hard" | "FOH free" | "a bus each";

/**
 * A setup with so many channels on one bus and so many listeners, all of whom hear it but the audience.
 * "usual": panned for the audience, and the band faces more or less one way. "hard": pans by chance, unequal trims,
 * stereo channels and ones that keep L/R, everybody faces another way. "FOH free" lets channel pans change as well.
 * "a bus each": the same, and all but one listen to buses of their own with as many channels.
 */
export const imageSetup = (channelCount: number, listenerCount: number, kind: ImageCase): Setup => {
  const hard = kind !== "usual";
  const next = numbers(channelCount + 7 * listenerCount + (hard ? 1 : 0));
  const spread = (size: number): number => (2 * next() - 1) * size;
  const pieces = Array.from({ length: Math.min(channelCount, LIMITS.pieces) }, (_, i) =>
    struck(`p${i}`, spread(1), next()),
  );
  const channels = Array.from({ length: channelCount }, (_, i): Channel => {
    const { id, x } = pieces[i % pieces.length] as Piece;
    return {
      ...BLANK_CHANNEL,
      id: `c${i}`,
      name: `Channel ${i}`,
      kind: "drum",
      piece: i % 9 === 8 ? null : id,
      lines: hard && i % 5 === 4 ? 2 : 1,
      pan: hard ? spread(1) : Math.max(-1, Math.min(1, -x)),
      gatedRms: -20,
      peak: -10,
      keepSides: hard && i % 5 >= 3,
    };
  });
  const bus: Bus = {
    ...BLANK_BUS,
    id: "m1",
    name: "Drums",
    stereo: true,
    sends: channels.map(({ id }, i) => ({
      ...BLANK_SEND,
      channel: id,
      pan: hard && i % 3 === 0 ? spread(1) : null,
    })),
    sideTrim: hard ? [0, -2] : [0, 0],
  };
  const others = kind === "a bus each" ? LIMITS.buses - 1 : 0;
  const buses = [bus, ...Array.from({ length: others }, (_, i) => ({ ...bus, id: `m${i + 2}` }))];
  return {
    kit: { hand: "right", yaw: 0, pieces },
    desk: DESK,
    channels,
    buses,
    listeners: Array.from({ length: listenerCount }, (_, i) =>
      listenerAt(
        i,
        i === 0 ? null : (buses[(i - 1) % buses.length] as Bus).id,
        spread(3),
        spread(3),
        spread(hard ? 180 : 30),
      ),
    ),
    monitor: {
      inputCount: 64,
      inputs: [sideInput("m1", "left"), sideInput("m1", "right", hard ? 1 : 0), ...Array(14).fill(null)],
      maxInputDbu: 20,
      ...MONITOR_REST,
    },
    preferences: {
      first: "l1",
      fohFixed: kind === "usual" || kind === "hard",
      inputsFixed: false,
      targetHeadroom: 6,
    },
    earphone: null,
    recording: null,
  };
};

const LIMBS: readonly (readonly Limb[])[] = [
  ["hand"],
  ["hand"],
  ["hand", "hat-foot"],
  ["kick-foot"],
  ["whole"],
];

/** One bus of so many channels, whose peaks are made of numbers 0…1. */
export const headroomSetup = (count: number, peakAt: (chance: number) => number): Setup => {
  const next = numbers(count);
  const pieces = Array.from({ length: count }, (_, i) =>
    struck(`p${i}`, 0, 1, LIMBS[i % LIMBS.length], i % 9 === 8 ? "Noor" : "drummer"),
  );
  const channels = pieces.map(
    ({ id }, i): Channel => ({
      ...BLANK_CHANNEL,
      id: `c${i}`,
      name: `Channel ${i}`,
      kind: "drum",
      piece: id,
      lines: i % 8 === 7 ? 2 : 1,
      pan: 2 * next() - 1,
      inverted: i % 5 === 0,
      gatedRms: -20 - 20 * next(),
      peak: peakAt(next()),
    }),
  );
  return {
    kit: { hand: "right", yaw: 0, pieces },
    desk: DESK,
    channels,
    buses: [
      {
        ...BLANK_BUS,
        id: "m",
        name: "Drums",
        stereo: true,
        sends: channels.map(({ id }) => ({ ...BLANK_SEND, channel: id })),
      },
    ],
    listeners: [],
    monitor: { inputCount: 16, inputs: [], maxInputDbu: 15, ...MONITOR_REST },
    preferences: { first: "l1", fohFixed: true, inputsFixed: false, targetHeadroom: 6 },
    earphone: null,
    recording: null,
  };
};

const KINDS: readonly ChannelKind[] = [
  "drum",
  "percussion",
  "bass",
  "guitar",
  "keys",
  "horn",
  "strings",
  "lead-vocal",
  "vocal",
  "playback",
  "click",
  "speech",
  "talkback",
  "audience",
  "video",
  "effects",
  "other",
];

/**
 * A patch with more feeds than inputs: channels of every kind, some stereo, and so many buses with all of them.
 * @param feeds inputs that take something
 * @param alike every channel of one kind, so that no way is cheaper than another
 */
export const patchSetup = (
  feeds: number,
  { inputCount, buses: busCount, alike }: { inputCount: number; buses: number; alike: boolean },
): Setup => {
  const inputs: MonitorInput[] = [];
  const channels: Channel[] = [];
  const buses = Array.from({ length: busCount }, (_, i) => `m${i + 1}`);
  for (const bus of buses) inputs.push(sideInput(bus, "left"), sideInput(bus, "right"));
  while (inputs.length < feeds) {
    const at = channels.length;
    const lines = !alike && at % 3 === 2 && inputs.length + 2 <= feeds ? 2 : 1;
    const id = `c${at}`;
    channels.push({
      ...BLANK_CHANNEL,
      id,
      name: `Channel ${at}`,
      kind: alike ? "vocal" : (KINDS[at % KINDS.length] as ChannelKind),
      lines,
      pan: ((at * 37) % 21) / 10 - 1,
      gatedRms: -20,
      peak: -10,
      keepSides: lines === 2 && at % 2 === 0,
    });
    for (const side of lines === 2 ? (["left", "right"] as const) : (["both"] as const))
      inputs.push({ ...BLANK_INPUT, feed: { kind: "channel", channel: id, side } });
  }
  return {
    ...headroomSetup(1, () => -10),
    channels,
    buses: buses.map((id, i) => ({
      ...BLANK_BUS,
      id,
      name: `Bus ${i + 1}`,
      stereo: true,
      sends: channels.filter((_, at) => (at + i) % 4 === 0).map((c) => ({ ...BLANK_SEND, channel: c.id })),
    })),
    listeners: [listenerAt(0, null, 0, 8, 180), listenerAt(1, "m1", 0, 0, 0)],
    monitor: { inputCount, inputs, maxInputDbu: 20, ...MONITOR_REST },
  };
};

/** As many channels of every kind as there may be, for so many inputs, a third of them patched as they are now. */
export const allocationSetup = (channelCount: number, inputCount: number): Setup => {
  const setup = patchSetup(channelCount, { inputCount, buses: 0, alike: false });
  return {
    ...setup,
    listeners: Array.from({ length: LIMITS.listeners }, (_, i) => listenerAt(i, null, i, 1, 0)),
    monitor: {
      ...setup.monitor,
      inputs: setup.monitor.inputs.slice(0, LIMITS.inputs).filter((_, i) => i % 3 === 0),
    },
  };
};

/** A setup to check, and ways to answer: as it is planned, and so that nothing fits together. */
export interface CheckedSetup {
  readonly setup: Setup;
  readonly listener: Listener;
  readonly answers: { readonly [way: string]: (piece: string, hits: number) => Answer };
}

const ANSWERS: readonly Answer[] = ["left", "middle", "right", "nothing", "unclear"];

/** A check with so many channels at so many pieces, the last of which are overheads. */
export const checkedSetup = (channelCount: number, pieceCount: number, overheads: number): CheckedSetup => {
  const setup = imageSetup(channelCount, 2, "usual");
  const { pieces } = setup.kit;
  const used = pieces.slice(0, pieceCount);
  const kit = used.map(
    (piece, at): Piece =>
      at >= pieceCount - overheads ? { ...piece, kind: "overhead", limbs: ["whole"] } : piece,
  );
  const planned = new Map(
    pieces.map(({ id, x }): [string, Answer] => [id, x > 0.12 ? "right" : x < -0.12 ? "left" : "middle"]),
  );
  return {
    setup: {
      ...setup,
      kit: { ...setup.kit, pieces: kit },
      channels: setup.channels.map((channel, at) => ({
        ...channel,
        piece: channel.piece && (used[at % used.length] as Piece).id,
      })),
    },
    listener: setup.listeners[1] as Listener,
    answers: {
      planned: (piece) => planned.get(piece) ?? "middle",
      contradictory: (_, hits) => ANSWERS[(hits * 7) % 5] as Answer,
    },
  };
};
