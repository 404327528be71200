import { mixedChannelsOf } from "../mix/bus";
import { BLANK_INPUT } from "../model/defaults";
import { inputsOfBus, inputsOfChannel } from "../model/inputs";
import { hearsFoh } from "../model/kinds";
import type { Channel, Id, MonitorInput, MonitorSystem, Setup } from "../model/setup";
import { linesOf } from "../model/sides";
import { type Edit, type Issue, issue } from "./issue";
import { TAP_ADVICE } from "./taps";
import { anyOn, busesFed, channelsInBuses, firstFree } from "./usage";

/** What a channel puts into inputs: left and right of a stereo channel. */
const feedsOf = (channel: Channel): MonitorInput[] =>
  linesOf(channel).map((side) => ({ ...BLANK_INPUT, feed: { kind: "channel", channel: channel.id, side } }));

/** Puts channels into the first free inputs, stereo ones into two neighbours. Nothing where there is no room for all. */
const place = (monitor: MonitorSystem, channels: readonly Channel[]): Edit[] => {
  const inputs = [...monitor.inputs];
  const edits: Edit[] = [];
  for (const channel of channels) {
    const feeds = feedsOf(channel);
    const run = firstFree({ ...monitor, inputs }, feeds.length);
    if (!run) return [];
    feeds.forEach((to, i) => {
      const index = run[i] as number;
      inputs[index] = to;
      edits.push({ edit: "input", index, to });
    });
    const tap = TAP_ADVICE[channel.kind].better;
    edits.push({ edit: "direct out", channel: channel.id, to: { ...channel.directOut, on: true, tap } });
  }
  return edits;
};

const unfedChannels = (setup: Setup): Issue[] => {
  const within = channelsInBuses(setup);
  const unfed = setup.channels.filter(
    (s) => !s.muted && !within.has(s.id) && inputsOfChannel(setup.monitor, s.id).length === 0,
  );
  if (unfed.length === 0) return [];
  const channels = unfed.map((s) => s.id);
  return [issue("unfed channel", "warn", { channels }, null, place(setup.monitor, unfed))];
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

const emptyBuses = (setup: Setup): Issue[] =>
  busesFed(setup)
    .filter((bus) => mixedChannelsOf(setup, bus).length === 0)
    .map((bus) =>
      issue("empty bus", "warn", { buses: [bus.id], inputs: inputsOfBus(setup.monitor, bus.id) }, null),
    );

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
    return [...unfedListeners(setup), ...unfedChannels(setup), ...emptyBuses(setup), ...nameIssues(setup)];
  }
  const channels = setup.channels.filter((s) => !s.muted).map((s) => s.id);
  const listeners = setup.listeners.filter((l) => !hearsFoh(l)).map((l) => l.id);
  const buses = setup.buses.map((b) => b.id);
  return [issue("nothing fed", "fault", { channels, listeners, buses }, null), ...nameIssues(setup)];
};
