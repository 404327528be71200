import type { MonitorInput, Setup } from "../model/setup";
import { beyondDesk, sharedNumbers } from "./desk-numbers";
import { type Issue, issue } from "./issue";
import { busesFed } from "./usage";

const numberIssues = ({ channels, desk }: Setup): Issue[] => {
  const beyond = beyondDesk(channels, desk);
  return [
    ...sharedNumbers(channels).map(({ number, channels: its }) =>
      issue("same number", "warn", { channels: its.map((c) => c.id) }, { number }),
    ),
    ...(beyond.length > 0
      ? [
          issue(
            "beyond desk",
            "warn",
            { channels: beyond.map((c) => c.id) },
            { channelCount: desk.channelCount },
          ),
        ]
      : []),
  ];
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
  ...numberIssues(setup),
  ...portIssues(setup),
  ...sendIssues(setup),
];
