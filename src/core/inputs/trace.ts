import { pairOrder } from "../mix/pair-order";
import { isDirectOutMuted, isSendMuted } from "../mix/taps";
import { inputsOfBus, inputsOfChannel } from "../model/inputs";
import type { Bus, Channel, Id, Listener, Send, Setup } from "../model/setup";
import type { Side } from "../model/units";
import { planSearch } from "./chain-search";
import { LINK_RULES, type LinkCode, type LinkValues, type TraceLink, traceLink } from "./trace-links";

/** What somebody does not hear, or too loud. */
export type TraceAbout =
  /** A channel, by its direct out (`bus` null) or by a bus. */
  | { readonly what: "channel"; readonly channel: Id; readonly bus: Id | null }
  /** What a monitor input takes, by its index from 0. */
  | { readonly what: "input"; readonly input: number }
  | { readonly what: "everything" }
  | { readonly what: "side"; readonly side: Side }
  /** A channel that is too loud: it may arrive more than once. There is no chain for it, but `arrivalsOf`. */
  | { readonly what: "too loud"; readonly channel: Id };

/** What was seen behind a link. */
export interface TraceLook {
  readonly link: LinkCode;
  readonly said: "signal" | "no signal" | "unseen";
}

const isDown = (...levels: readonly (number | null | undefined)[]): boolean =>
  levels.some((level) => level === null);

const portLink = (setup: Setup, inputs: readonly number[]): TraceLink => {
  const all = setup.monitor.inputs;
  const ports = inputs.map((i) => all[i]?.port ?? null);
  const shared = ports.filter(
    (port): port is number =>
      port !== null &&
      all.some(
        (other, at) =>
          other?.port === port &&
          !inputs.includes(at) &&
          inputs.some((i) => JSON.stringify(all[i]?.feed) !== JSON.stringify(other.feed)),
      ),
  );
  return traceLink("port", { ports, inputs, shared: [...new Set(shared)] }, shared.length > 0);
};

const inputLink = ({ monitor }: Setup, inputs: readonly number[]): TraceLink => {
  const off = inputs.filter((i) => monitor.inputs[i]?.on !== true || i >= monitor.inputCount);
  return traceLink("monitor input", { inputs, off }, off.length === inputs.length);
};

/** From the desk’s outputs to the ears. */
const beyondDesk = (
  setup: Setup,
  listener: Listener,
  inputs: readonly number[],
  pair: LinkValues["stereo link"] | null,
): TraceLink[] => [
  portLink(setup, inputs),
  traceLink("monitor link", { link: setup.monitor.link, inputs }),
  inputLink(setup, inputs),
  ...(pair ? [traceLink("stereo link", pair, !pair.isPair)] : []),
  ...atListener(listener),
];

const atListener = ({ id }: Listener): TraceLink[] => [
  traceLink("mixer", { listener: id }),
  traceLink("earphones", { listener: id }),
];

/** The two inputs of a stereo bus, which a mixer can link only as neighbours; null where nothing is to be linked. */
const pairOfBus = ({ monitor }: Setup, bus: Bus): LinkValues["stereo link"] | null => {
  if (!bus.stereo || bus.folded) return null;
  const order = pairOrder(monitor, bus);
  return { inputs: inputsOfBus(monitor, bus.id), isPair: order === "normal" || order === "swapped" };
};

/** The same for the inputs of a stereo channel, where both sides are among them. */
const pairOfChannel = ({ monitor }: Setup, inputs: readonly number[]): LinkValues["stereo link"] | null => {
  const at = (side: Side): number => inputs.find((i) => monitor.inputs[i]?.feed.side === side) ?? -1;
  const [left, right] = [at("left"), at("right")];
  return left < 0 || right < 0 ? null : { inputs, isPair: Math.abs(left - right) === 1 };
};

const directRoute = (
  setup: Setup,
  listener: Listener,
  channel: Channel,
  inputs: readonly number[],
): TraceLink[] => {
  const { id, muted, fader, directOut } = channel;
  const isMutable = isDirectOutMuted(setup.desk, { ...channel, muted: true });
  const isPost = directOut.tap === "post-fader";
  return [
    traceLink("source", { channel: id }),
    ...(isMutable ? [traceLink("mute", { channel: id, muted }, muted)] : []),
    traceLink("feed", { channel: id, bus: null, on: directOut.on, tap: directOut.tap }, !directOut.on),
    ...(isPost ? [traceLink("level", { fader, bus: null }, isDown(fader))] : []),
    ...beyondDesk(setup, listener, inputs, pairOfChannel(setup, inputs)),
  ];
};

const busRoute = (setup: Setup, listener: Listener, channel: Channel, bus: Bus, send: Send): TraceLink[] => {
  const { id, muted, fader } = channel;
  const isPost = send.tap === "post-fader";
  const isMutable = isSendMuted(setup.desk, { muted: true }, send);
  const levels = { send: send.level, ...(isPost ? { fader } : {}), busFader: bus.fader };
  return [
    traceLink("source", { channel: id }),
    ...(isMutable ? [traceLink("mute", { channel: id, muted }, muted)] : []),
    traceLink("feed", { channel: id, bus: bus.id, on: send.on, tap: send.tap }, !send.on),
    traceLink("level", { ...levels, bus: bus.id }, isDown(send.level, levels.fader, bus.fader)),
    ...beyondDesk(setup, listener, inputsOfBus(setup.monitor, bus.id), pairOfBus(setup, bus)),
  ];
};

/** Ways by which a channel is to reach the monitor inputs: its direct out (null), then buses. */
export const routesOf = (setup: Setup, channel: Id): (Id | null)[] => [
  ...(inputsOfChannel(setup.monitor, channel).length > 0 ? [null] : []),
  ...setup.buses
    .filter(
      (bus) => bus.sends.some((s) => s.channel === channel) && inputsOfBus(setup.monitor, bus.id).length > 0,
    )
    .map((bus) => bus.id),
];

const channelChain = (setup: Setup, listener: Listener, id: Id, by: Id | null): TraceLink[] | null => {
  const channel = setup.channels.find((c) => c.id === id);
  if (!channel || !routesOf(setup, id).includes(by)) return null;
  if (by === null) return directRoute(setup, listener, channel, inputsOfChannel(setup.monitor, id));
  const bus = setup.buses.find((b) => b.id === by);
  const send = bus?.sends.find((s) => s.channel === id);
  return bus && send ? busRoute(setup, listener, channel, bus, send) : null;
};

const inputChain = (setup: Setup, listener: Listener, index: number): TraceLink[] | null => {
  const input = setup.monitor.inputs[index];
  if (!input) return null;
  const { feed } = input;
  if (feed.kind === "channel") {
    const channel = setup.channels.find((c) => c.id === feed.channel);
    return channel ? directRoute(setup, listener, channel, [index]) : null;
  }
  const bus = setup.buses.find((b) => b.id === feed.bus);
  if (!bus) return null;
  return [
    traceLink("level", { busFader: bus.fader, bus: bus.id }, isDown(bus.fader)),
    ...beyondDesk(setup, listener, [index], null),
  ];
};

const sideChain = (setup: Setup, listener: Listener, side: Side): TraceLink[] | null => {
  const bus = setup.buses.find((b) => b.id === listener.bus);
  // Which of the two inputs lies on that side is a question of the patch; either way one of them is the way there.
  const order = bus ? pairOrder(setup.monitor, bus) : "unassigned";
  const from = order === "swapped" ? (side === "left" ? "right" : "left") : side;
  const inputs = bus?.stereo ? inputsOfBus(setup.monitor, bus.id, listener.flipped ? other(from) : from) : [];
  return bus && inputs.length > 0
    ? beyondDesk(setup, listener, inputs, pairOfBus(setup, bus))
    : atListener(listener);
};

const other = (side: Side): Side => (side === "left" ? "right" : "left");

/**
 * The chain of links from what should sound to a listener’s ears, in the order of the signal, each with what the plan
 * says of it; null where the plan has no such way.
 */
export const chainOf = (setup: Setup, listener: Listener, about: TraceAbout): TraceLink[] | null => {
  switch (about.what) {
    case "channel":
      return channelChain(setup, listener, about.channel, about.bus);
    case "input":
      return inputChain(setup, listener, about.input);
    case "everything":
      return [traceLink("monitor link", { link: setup.monitor.link, inputs: [] }), ...atListener(listener)];
    case "side":
      return sideChain(setup, listener, about.side);
    case "too loud":
      return null;
  }
};

/** How far a trace has come. */
export interface Traced {
  /** The links that can still be the broken one, in their order; none where the looks contradict each other. */
  readonly suspects: readonly TraceLink[];
  /** The link behind which to look next; null where one link is left, or no look tells more. */
  readonly next: LinkCode | null;
  /** Expected cost of the looks from here on. */
  readonly cost: number;
}

/** Where to look next, after some looks: with the least expected cost by the weights and costs of `LINK_RULES`. */
export const traceOn = (chain: readonly TraceLink[], looks: readonly TraceLook[]): Traced => {
  const saw = (said: TraceLook["said"]): number[] =>
    looks.filter((l) => l.said === said).map((l) => chain.findIndex((link) => link.code === l.link));
  const unseen = saw("unseen");
  const from = Math.max(0, ...saw("signal").map((at) => at + 1));
  const to = Math.min(chain.length - 1, ...saw("no signal").filter((at) => at >= 0));
  if (from > to) return { suspects: [], next: null, cost: 0 };
  const links = chain.map(({ code }, at) => {
    const { weight, lookCost } = LINK_RULES[code];
    return { weight, lookCost: unseen.includes(at) ? null : lookCost };
  });
  const { look, cost } = planSearch(links, from, to);
  return {
    suspects: chain.slice(from, to + 1),
    next: look === null ? null : ((chain[look] as TraceLink).code ?? null),
    cost,
  };
};
