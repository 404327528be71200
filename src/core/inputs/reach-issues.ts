import { BLANK_INPUT } from "../model/defaults";
import { inputsOfBus, inputsOfChannel } from "../model/inputs";
import { hearsFoh } from "../model/kinds";
import type { Bus, Channel, Id, MonitorInput, MonitorSystem, Setup } from "../model/setup";
import { linesOf, sidesOf } from "../model/sides";
import { type Edit, type Issue, issue } from "./issue";
import { TAP_ADVICE } from "./taps";
import { anyOn, busesFed, channelsInBuses, firstFree, passingIn } from "./usage";

/** What a channel puts into inputs: left and right of a stereo channel. */
const feedsOf = (channel: Channel): MonitorInput[] =>
  linesOf(channel).map((side) => ({ ...BLANK_INPUT, feed: { kind: "channel", channel: channel.id, side } }));

/** What a bus puts into inputs, in the order in which it is meant. */
const sidesIn = (bus: Bus): MonitorInput[] => {
  const sides = sidesOf(bus).map(
    (side): MonitorInput => ({ ...BLANK_INPUT, feed: { kind: "bus", bus: bus.id, side } }),
  );
  return bus.swapped ? sides.reverse() : sides;
};

/** Puts each of these into the first free neighbours; null where there is no room for all. */
const placed = (monitor: MonitorSystem, feeds: readonly (readonly MonitorInput[])[]): Edit[][] | null => {
  const inputs = [...monitor.inputs];
  const edits: Edit[][] = [];
  for (const its of feeds) {
    const run = firstFree({ ...monitor, inputs }, its.length);
    if (!run) return null;
    edits.push(
      its.map((to, i): Edit => {
        const index = run[i] as number;
        inputs[index] = to;
        return { edit: "input", index, to };
      }),
    );
  }
  return edits;
};

/** The direct out of a channel that gets an input: on, and tapped where it fits. */
const directOutOf = ({ id, kind, directOut }: Channel): Edit => ({
  edit: "direct out",
  channel: id,
  to: { ...directOut, on: true, tap: TAP_ADVICE[kind].better },
});

const unfedChannels = (setup: Setup): Issue[] => {
  const within = channelsInBuses(setup);
  const unfed = setup.channels.filter(
    (s) => !s.muted && !within.has(s.id) && inputsOfChannel(setup.monitor, s.id).length === 0,
  );
  if (unfed.length === 0) return [];
  const channels = unfed.map((s) => s.id);
  const fix = placed(setup.monitor, unfed.map(feedsOf))?.flatMap((edits, i) => [
    ...edits,
    directOutOf(unfed[i] as Channel),
  ]);
  return [issue("unfed channel", "warn", { channels }, null, fix)];
};

/** Buses without a monitor input. One that somebody listens to is told with the listener. */
const unfedBuses = ({ buses, listeners, monitor }: Setup): Issue[] => {
  const heard = new Set(listeners.filter((l) => !hearsFoh(l)).map((l) => l.bus));
  const unfed = buses.filter((bus) => !heard.has(bus.id) && inputsOfBus(monitor, bus.id).length === 0);
  if (unfed.length === 0) return [];
  const about = { buses: unfed.map(({ id }) => id) };
  return [issue("unfed bus", "warn", about, null, placed(monitor, unfed.map(sidesIn))?.flat())];
};

const unfedListeners = (setup: Setup): Issue[] => {
  const fed = new Set(busesFed(setup).map((s) => s.id));
  return setup.listeners
    .filter((l) => !hearsFoh(l) && (l.bus === null || !fed.has(l.bus)))
    .map(({ id, bus: heard }) => {
      const bus = setup.buses.find((s) => s.id === heard);
      if (!bus) return issue("no bus", "note", { listeners: [id] }, null);
      const inputs = inputsOfBus(setup.monitor, bus.id);
      const about = { listeners: [id], buses: [bus.id], inputs };
      return issue("unfed listener", "fault", about, { bus: inputs.length === 0 ? "unassigned" : "off" });
    });
};

const emptyBuses = (setup: Setup): Issue[] => {
  const passes = passingIn(setup);
  return busesFed(setup)
    .filter((bus) => !bus.sends.some(passes))
    .map((bus) =>
      issue("empty bus", "warn", { buses: [bus.id], inputs: inputsOfBus(setup.monitor, bus.id) }, null),
    );
};

/** Names that more than one has, whatever the case; each group of one list once. */
const sameNames = (list: readonly { readonly id: Id; readonly name: string }[]): [string, Id[]][] => {
  const groups = new Map<string, { name: string; ids: Id[] }>();
  for (const { id, name } of list) {
    const key = name.trim().toLowerCase();
    const group = groups.get(key) ?? { name: name.trim(), ids: [] };
    group.ids.push(id);
    groups.set(key, group);
  }
  return [...groups.values()].filter((g) => g.ids.length > 1).map((g) => [g.name, g.ids]);
};

const nameIssues = (setup: Setup): Issue[] => [
  ...sameNames(setup.channels).map(([name, channels]) => issue("same name", "note", { channels }, { name })),
  ...sameNames(setup.buses).map(([name, buses]) => issue("same name", "note", { buses }, { name })),
];

const isSilent = (setup: Setup): boolean =>
  !setup.channels.some((s) => !s.muted && anyOn(setup, inputsOfChannel(setup.monitor, s.id))) &&
  channelsInBuses(setup).size === 0;

/** Who and what is not reached: listeners, channels, buses without anything in them; names that say nothing. */
export const reachIssues = (setup: Setup): Issue[] => {
  if (!isSilent(setup)) {
    return [
      ...unfedListeners(setup),
      ...unfedChannels(setup),
      ...unfedBuses(setup),
      ...emptyBuses(setup),
      ...nameIssues(setup),
    ];
  }
  const channels = setup.channels.filter((s) => !s.muted).map((s) => s.id);
  const listeners = setup.listeners.filter((l) => !hearsFoh(l)).map((l) => l.id);
  const buses = setup.buses.map((b) => b.id);
  return [issue("nothing fed", "fault", { channels, listeners, buses }, null), ...nameIssues(setup)];
};
