import { inputTrims, sidesOff } from "../mix/pair-order";
import { nextId, uniqueName } from "../model/ids";
import type { Bus, Id, Listener, Send, Setup } from "../model/setup";
import type { Pan } from "../model/units";
import type {
  BusChange,
  ListenerChoice,
  Mirrored,
  PanMove,
  RankedPlan,
  Situation,
  Step,
  Voice,
} from "./model";
import { inputsSwapped, roomForBus, withStep } from "./steps";

const picked = ({ voices }: Situation, mirrored: Mirrored): Voice[] =>
  mirrored.map((at) => voices[at] as Voice);

const busMoves = (situation: Situation, set: Mirrored): PanMove[] =>
  picked(situation, set).map(({ channel, send, pan, mirrored }) => ({
    channel: channel.id,
    from: pan,
    to: mirrored.pan,
    followed: send.pan === null,
    error: mirrored.error,
  }));

const channelMoves = (situation: Situation, set: Mirrored): PanMove[] =>
  picked(situation, set).map(({ channel, channelMirrored }) => ({
    channel: channel.id,
    from: channel.pan,
    to: channelMirrored.pan,
    followed: false,
    error: channelMirrored.error,
  }));

/** The sends of a copy that stays as the bus is now: channel pans about to be set are written down, then what it needs. */
const copiedSends = (situation: Situation, channels: Mirrored, pans: readonly PanMove[]): readonly Send[] => {
  const fixed = new Map<Id, Pan>([
    ...picked(situation, channels).map((v) => [v.channel.id, v.pan] as const),
    ...pans.map((p) => [p.channel, p.to] as const),
  ]);
  return situation.bus.sends.map((s) => ({ ...s, pan: fixed.get(s.channel) ?? s.pan }));
};

/** A bus for one listener alone; null without room. */
const ownBus = (
  setup: Setup,
  bus: Bus,
  listener: Listener,
  copy: Pick<Bus, "sends" | "swapped">,
  pans: readonly PanMove[],
): Step | null => {
  const room = roomForBus(setup);
  if (!room) return null;
  return {
    step: "own bus",
    listener: listener.id,
    of: bus.id,
    copy: {
      ...bus,
      ...copy,
      id: nextId("m", setup.buses),
      name: uniqueName(
        `${bus.name || "Bus"} for ${listener.name.split(",")[0]?.trim() || "one"}`,
        setup.buses,
      ),
    },
    inputs: copy.swapped ? [room[1], room[0]] : room,
    trims: inputTrims(setup.monitor, bus),
    off: sidesOff(setup.monitor, bus),
    pans,
  };
};

/** What is done to the bus itself, for everybody who hears it. */
const busSteps = (situation: Situation, change: BusChange): Step[] => {
  const { setup, bus } = situation;
  const steps: Step[] = [];
  if (change.swap) steps.push({ step: "swap", bus: bus.id, inputs: inputsSwapped(setup.monitor, bus) });
  if (change.fold) steps.push({ step: "fold", bus: bus.id });
  if (change.panning === "bus")
    for (const move of busMoves(situation, change.mirrored))
      steps.push({ step: "pan", bus: bus.id, ...move });
  if (change.panning === "foh")
    for (const move of channelMoves(situation, change.mirrored)) steps.push({ step: "channel pan", ...move });
  return steps;
};

/** Everything a plan asks for, in the order in which it is done. */
export const stepsOf = (situation: Situation, { change, choices }: RankedPlan): Step[] => {
  const { setup, bus, members, swapped } = situation;
  const channels = change.panning === "foh" ? change.mirrored : [];
  const steps: Step[] = [];
  // Each copy takes inputs from the next one, so the setup goes along.
  let now = setup;
  members.forEach((listener, at) => {
    const choice = choices[at] as ListenerChoice;
    if (choice.does === "flip")
      steps.push({ step: "flip", listener: listener.id, flipped: !listener.flipped });
    if (choice.does !== "own bus") return;
    const pans = busMoves(situation, choice.mirrored);
    const copy = { sends: copiedSends(situation, channels, pans), swapped: swapped !== choice.swap };
    const step = ownBus(now, bus, listener, copy, pans);
    if (!step) return;
    steps.push(step);
    now = withStep(now, step);
  });
  return [...busSteps(situation, change), ...steps];
};
