import { inputsOfChannel } from "../model/inputs";
import { hearsFoh } from "../model/kinds";
import type { Bus, Channel, DirectOut, Id, Listener, Send, Setup } from "../model/setup";
import type { ControlCode, ControlValues, DeskControl } from "./controls";

/**
 * What each control stands at before anybody has set anything: feeds off and bus faders down, because left off is how
 * they are forgotten; the rest as it passes a signal unchanged. Common practice, no source.
 */
export const UNSET: ControlValues = {
  "channel number": [],
  "channel stereo": false,
  polarity: false,
  mute: false,
  pan: 0,
  fader: 0,
  "direct out": { tap: "pre-fader", on: false, trim: 0 },
  send: { on: false, level: null, tap: "post-fader", pan: null },
  "bus number": [],
  "bus stereo": false,
  "bus mono": false,
  "bus fader": null,
  "bus trim": 0,
  "side trim": [0, 0],
  "side polarity": [false, false],
  pad: 0,
  "input feed": null,
  "input on": true,
  "input trim": 0,
  hears: null,
  flip: false,
  mono: false,
};

const control = <Code extends ControlCode>(
  code: Code,
  id: Id,
  value: ControlValues[Code],
  bus: Id = "",
): DeskControl => ({ control: code, id, bus, value }) as DeskControl;

/** A direct out that is off, or that no monitor input takes, has nothing to be set but its switch. */
const directOutOf = ({ monitor }: Setup, { id, directOut }: Channel): DirectOut =>
  directOut.on && inputsOfChannel(monitor, id).length > 0 ? directOut : UNSET["direct out"];

/** A send that passes nothing has nothing to be set but its switch; into a mono bus there is no pan. */
const sendInto = ({ stereo }: Bus, { on, level, tap, pan }: Send): Omit<Send, "channel"> =>
  on && level !== null ? { on, level, tap, pan: stereo ? pan : null } : UNSET.send;

/** A send with the bus that it goes to. */
type Into = readonly [bus: Bus, send: Send];

/** The sends of each channel, in the order of the buses. */
const sendsByChannel = ({ buses }: Setup): ReadonlyMap<Id, readonly Into[]> => {
  const found = new Map<Id, Into[]>();
  for (const bus of buses)
    for (const send of bus.sends) {
      const its = found.get(send.channel) ?? [];
      its.push([bus, send]);
      found.set(send.channel, its);
    }
  return found;
};

const ofChannel = (setup: Setup, channel: Channel, into: readonly Into[]): DeskControl[] => {
  const { id } = channel;
  const directOut = directOutOf(setup, channel);
  const sends = into.map(([bus, send]) => ({ bus: bus.id, value: sendInto(bus, send) }));
  const isPostFader = [directOut, ...sends.map((s) => s.value)].some((f) => f.on && f.tap === "post-fader");
  return [
    control("channel number", id, channel.numbers),
    control("channel stereo", id, channel.lines === 2),
    control("polarity", id, channel.inverted),
    control("mute", id, channel.muted),
    control("pan", id, channel.pan),
    // Where nothing moves with it, it is FOH’s alone.
    control("fader", id, isPostFader ? channel.fader : UNSET.fader),
    control("direct out", id, directOut),
    ...sends.map(({ bus, value }) => control("send", id, value, bus)),
  ];
};

const ofBus = (bus: Bus): DeskControl[] => {
  const { id, stereo } = bus;
  return [
    control("bus number", id, bus.numbers),
    control("bus stereo", id, stereo),
    control("bus mono", id, stereo && bus.folded),
    control("bus fader", id, bus.fader),
    control("bus trim", id, bus.trim),
    control("side trim", id, stereo ? bus.sideTrim : UNSET["side trim"]),
    control("side polarity", id, stereo ? bus.sideInverted : UNSET["side polarity"]),
    control("pad", id, bus.padDb),
  ];
};

const ofInputs = ({ monitor }: Setup): DeskControl[] =>
  monitor.inputs.flatMap((input, index) => {
    if (!input) return [];
    const { feed, port, on, trim } = input;
    return [
      control("input feed", String(index), { feed, port }),
      control("input on", String(index), on),
      control("input trim", String(index), trim),
    ];
  });

const ofMixer = (listener: Listener): DeskControl[] => {
  if (hearsFoh(listener)) return [];
  const { id, bus, flipped, mono } = listener;
  return [control("hears", id, bus), control("flip", id, flipped), control("mono", id, mono)];
};

/** Every control of a plan with what it stands at: of channels, buses, monitor inputs and musicians’ mixers, in the setup’s order. */
export const controlsOf = (setup: Setup): DeskControl[] => {
  const sends = sendsByChannel(setup);
  return [
    ...setup.channels.flatMap((channel) => ofChannel(setup, channel, sends.get(channel.id) ?? [])),
    ...setup.buses.flatMap(ofBus),
    ...ofInputs(setup),
    ...setup.listeners.flatMap(ofMixer),
  ];
};
