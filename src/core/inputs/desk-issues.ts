import type { Bus, Channel, MonitorInput, Setup } from "../model/setup";
import { beyondDesk, sharedNumbers } from "./desk-numbers";
import { type Issue, issue } from "./issue";
import { busesFed } from "./usage";

/** Numbers at the desk that several channels, or buses, have, or that the desk has not. */
const numberIssues = (setup: Setup, what: "channels" | "buses", count: number): Issue[] => {
  const things: readonly (Channel | Bus)[] = setup[what];
  const about = (its: readonly (Channel | Bus)[]) => ({ [what]: its.map(({ id }) => id) });
  const beyond = beyondDesk(things, count);
  return [
    ...sharedNumbers(things).map(({ number, all }) => issue("same number", "warn", about(all), { number })),
    ...(beyond.length > 0 ? [issue("beyond desk", "warn", about(beyond), { count })] : []),
  ];
};

const lostPorts = ({ monitor, desk }: Setup): Issue[] => {
  const inputs = monitor.inputs.flatMap((input, i) => ((input?.port ?? 0) > desk.portCount ? [i] : []));
  return inputs.length === 0 ? [] : [issue("beyond ports", "warn", { inputs }, { last: desk.portCount })];
};

/** Output ports that are to feed several inputs with different things. The very same thing twice is told elsewhere. */
const portIssues = ({ monitor }: Setup): Issue[] => {
  const by = new Map<number, { readonly index: number; readonly input: MonitorInput }[]>();
  monitor.inputs.forEach((input, index) => {
    if (input && input.port !== null) by.set(input.port, [...(by.get(input.port) ?? []), { index, input }]);
  });
  return [...by]
    .filter(([, its]) => new Set(its.map(({ input }) => JSON.stringify(input.feed))).size > 1)
    .map(([port, its]) => issue("same port", "fault", { inputs: its.map((i) => i.index) }, { port }));
};

const sendIssues = (setup: Setup): Issue[] =>
  busesFed(setup).flatMap((bus) => {
    const off = bus.sends.filter((send) => !send.on).map((send) => send.channel);
    return off.length === 0 ? [] : [issue("send off", "note", { channels: off, buses: [bus.id] }, null)];
  });

/** What the desk itself makes doubtful: numbers that two have or it has not, ports used twice, sends that are off. */
export const deskIssues = (setup: Setup): Issue[] => [
  ...numberIssues(setup, "channels", setup.desk.channelCount),
  ...numberIssues(setup, "buses", setup.desk.busCount),
  ...portIssues(setup),
  ...lostPorts(setup),
  ...sendIssues(setup),
];
