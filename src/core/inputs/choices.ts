import { mixedChannelsOf } from "../mix/bus";
import { isSwapped } from "../mix/pair-order";
import { isDirectOutMuted, isInputOn } from "../mix/taps";
import type { Bus, Channel, Id, Setup } from "../model/setup";
import { heardPlace } from "../stereo/position";
import { APART, COSTS } from "./costs";
import { type FreeReason, freedBy, type Move } from "./move";
import { firstOfSide, type PatchedThing, patchedThings, repeatsOf } from "./patched";
import type { Choice, SearchItem } from "./search";
import { anyOn, busesFed } from "./usage";

/** What can be done with one thing in the inputs, and the thing. */
export interface ThingChoices extends SearchItem<Move> {
  readonly thing: PatchedThing;
}

const choice = (move: Move, cost: number): Choice<Move> => ({ move, cost, frees: freedBy(move) });

const freeing = (thing: PatchedThing, why: FreeReason, inputs: readonly number[]): Choice<Move>[] =>
  inputs.length === 0
    ? []
    : [choice({ move: "free", why, of: thing.kind, id: thing.id, inputs }, COSTS.free[why] * inputs.length)];

const folding = (setup: Setup, thing: PatchedThing, cost: number): Choice<Move>[] => {
  const sides = (["left", "right"] as const).map((side) => firstOfSide(setup, thing, side));
  if (!thing.stereo || sides.includes(-1)) return [];
  const keeps =
    thing.inputs.find((i) => isInputOn(setup, setup.monitor.inputs[i])) ?? (thing.inputs[0] as number);
  return [choice({ move: "fold", of: thing.kind, id: thing.id, keeps, inputs: thing.inputs }, cost)];
};

const choicesOfBus = (setup: Setup, thing: PatchedThing, bus: Bus): ThingChoices => {
  const off = thing.inputs.filter((i) => !isInputOn(setup, setup.monitor.inputs[i]));
  const copies = repeatsOf(setup, thing).map((r) => r.index);
  const collapsing = mixedChannelsOf(setup, bus).filter((p) => heardPlace(p.sides) !== "middle").length;
  const foldCost = COSTS.foldPair + COSTS.foldImage * collapsing;
  return {
    thing,
    join: null,
    choices: [
      ...freeing(thing, "copy", copies),
      ...freeing(thing, "off", off),
      ...(bus.folded || off.length === thing.inputs.length ? [] : folding(setup, thing, foldCost)),
    ],
  };
};

/** What it costs a channel to lose its sides: nothing where it has none. */
const sidesCost = (channel: Channel): number =>
  channel.lines === 1 ? 0 : COSTS.foldChannel + (channel.keepSides ? COSTS.keepSides : 0);

const intoCost = (setup: Setup, channel: Channel, bus: Bus, inside: readonly Channel[]): number => {
  const { like, strange, family } = APART[channel.kind];
  const known = family !== null && inside.some((s) => APART[s.kind].family === family);
  const turned = bus.stereo && channel.keepSides && isSwapped(setup, bus) ? COSTS.keepSides : 0;
  return (known ? like : strange) + (bus.stereo ? turned : sidesCost(channel));
};

/** A bus that reaches the listeners and what sounds in it. */
interface Target {
  readonly bus: Bus;
  readonly inside: readonly Channel[];
}

const choicesOfChannel = (
  setup: Setup,
  thing: PatchedThing,
  channel: Channel,
  targets: readonly Target[],
): ThingChoices => {
  const { inputs } = thing;
  const off = inputs.filter((i) => !isInputOn(setup, setup.monitor.inputs[i]));
  // A feed that is silent is only ever freed: nothing tells how it should sound elsewhere.
  if (isDirectOutMuted(setup.desk, channel))
    return { thing, join: null, choices: freeing(thing, "muted", inputs) };
  if (!anyOn(setup, inputs)) return { thing, join: null, choices: freeing(thing, "off", inputs) };
  const { like, family } = APART[channel.kind];
  const within = targets.some((t) => t.inside.includes(channel));
  const move = (bus: Id): Move => ({ move: "into", channel: channel.id, bus, inputs });
  return {
    thing,
    join: family === null ? null : { family, frees: inputs.length, cost: like + sidesCost(channel) },
    choices: [
      ...freeing(
        thing,
        "copy",
        repeatsOf(setup, thing).map((r) => r.index),
      ),
      ...freeing(thing, "off", off),
      ...(within ? freeing(thing, "twice", inputs) : []),
      ...folding(setup, thing, sidesCost(channel)),
      ...targets
        .filter((t) => !t.inside.includes(channel))
        .map((t) => choice(move(t.bus.id), intoCost(setup, channel, t.bus, t.inside))),
    ],
  };
};

/**
 * What can be done with each thing in the inputs, those of one family one after the other.
 * Of each thing one choice at most is made.
 */
export const choicesOf = (setup: Setup): ThingChoices[] => {
  const targets = busesFed(setup).map(
    (bus): Target => ({
      bus,
      inside: mixedChannelsOf(setup, bus).map((p) => p.channel),
    }),
  );
  const choices = patchedThings(setup).flatMap((thing): ThingChoices[] => {
    const bus = thing.kind === "bus" && setup.buses.find((s) => s.id === thing.id);
    if (bus) return [choicesOfBus(setup, thing, bus)];
    const channel = setup.channels.find((s) => s.id === thing.id);
    return channel ? [choicesOfChannel(setup, thing, channel, targets)] : [];
  });
  const family = (o: ThingChoices): string => o.join?.family ?? "";
  return choices.sort((a, b) => (family(a) < family(b) ? -1 : family(a) > family(b) ? 1 : 0));
};
