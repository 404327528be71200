import { quoted } from "../lib/direction";
import { mixedChannelsOf } from "../mix/bus";
import { BLANK_INPUT } from "../model/defaults";
import { inputsOfBus, inputsOfChannel } from "../model/inputs";
import type { Channel, Id, Setup } from "../model/setup";
import { linesOf } from "../model/sides";
import { busName, channelName, listenerName } from "../names";
import { capitalised, formatList } from "../words";
import { type Edit, issue, type PatchIssue } from "./issue";
import { TAP_ADVICE } from "./taps";
import { anyOn, busesFed, channelsInBuses, firstFree } from "./usage";

/** Puts a channel into the first free inputs: two neighbours for one of two channels. Nothing where there is no room. */
const place = (setup: Setup, channel: Channel): Edit[] => {
  const run = firstFree(setup.monitor, channel.lines);
  const sides = linesOf(channel);
  if (!run) return [];
  const { better } = TAP_ADVICE[channel.kind];
  return [
    ...run.map(
      (index, i): Edit => ({
        edit: "input",
        index,
        to: { ...BLANK_INPUT, feed: { kind: "channel", channel: channel.id, side: sides[i] ?? "both" } },
      }),
    ),
    { edit: "direct out", channel: channel.id, to: { ...channel.directOut, on: true, tap: better } },
  ];
};

const unfedChannels = (setup: Setup): PatchIssue[] => {
  const within = channelsInBuses(setup);
  return setup.channels
    .filter((s) => !s.muted && !within.has(s.id) && inputsOfChannel(setup.monitor, s.id).length === 0)
    .map((channel) =>
      issue(
        "unfed channel",
        "warn",
        { channels: [channel.id] },
        `${channelName(setup, channel.id)} is in no input and in no patched sum: no player hears it.`,
        "Give it an input, or send it into a bus that is patched.",
        place(setup, channel),
      ),
    );
};

const unfedListeners = (setup: Setup): PatchIssue[] => {
  const fed = new Set(busesFed(setup).map((s) => s.id));
  return setup.listeners
    .filter((l) => l.kind !== "audience" && (l.bus === null || !fed.has(l.bus)))
    .map(({ id, name, bus: heard }) => {
      const bus = setup.buses.find((s) => s.id === heard);
      const who = capitalised(listenerName({ name }));
      if (!bus) {
        const says = `${who} hears no bus, only what has an input of its own.`;
        return issue("unfed listener", "note", { listeners: [id] }, says, "Choose a bus if one is meant.");
      }
      const inputs = inputsOfBus(setup.monitor, bus.id);
      const what = busName(bus);
      const says = `${who} hears ${what}, which ${inputs.length === 0 ? "has no input" : "is off"}.`;
      const remedy = inputs.length === 0 ? `Give ${what} its inputs.` : `Switch ${what} on.`;
      return issue("unfed listener", "fault", { listeners: [id], buses: [bus.id], inputs }, says, remedy);
    });
};

const emptyBuses = (setup: Setup): PatchIssue[] =>
  busesFed(setup)
    .filter((bus) => mixedChannelsOf(setup, bus).length === 0)
    .map((bus) =>
      issue(
        "empty bus",
        "warn",
        { buses: [bus.id], inputs: inputsOfBus(setup.monitor, bus.id) },
        `${busName(bus)} is patched, but nothing sounds in it.`,
        "Send something into it, or free what it takes.",
      ),
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

const RENAME = "Give each a name of its own: on the patch sheet nobody can tell them apart.";

const share = (name: string): string => (name === "" ? "have no name" : `are called ${quoted(name)}`);

const nameFlags = (setup: Setup): PatchIssue[] => [
  ...sameNames(setup.channels).map(([name, channels]) =>
    issue("same name", "note", { channels }, `${channels.length} channels ${share(name)}.`, RENAME),
  ),
  ...sameNames(setup.buses).map(([name, buses]) =>
    issue("same name", "note", { buses }, `${buses.length} sums ${share(name)}.`, RENAME),
  ),
];

const isSilent = (setup: Setup): boolean =>
  !setup.channels.some((s) => !s.muted && anyOn(setup, inputsOfChannel(setup.monitor, s.id))) &&
  channelsInBuses(setup).size === 0;

/** Who and what is not reached: listeners, channels, sums without anything in them; names that say nothing. */
export const reachIssues = (setup: Setup): PatchIssue[] => {
  if (!isSilent(setup)) {
    return [...unfedListeners(setup), ...unfedChannels(setup), ...emptyBuses(setup), ...nameFlags(setup)];
  }
  const channels = setup.channels.filter((s) => !s.muted).map((s) => s.id);
  const waiting = setup.buses.map(busName);
  const nothing = issue(
    "nothing fed",
    "fault",
    { channels, listeners: setup.listeners.filter((l) => l.kind !== "audience").map((l) => l.id) },
    "Nothing is fed: no input brings a sound.",
    waiting.length > 0 ? `Begin with ${formatList(waiting)}.` : "Put the first channel into an input.",
  );
  return [nothing, ...nameFlags(setup)];
};
