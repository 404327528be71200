import type { Bus, Send, Setup } from "../model/setup";

const isSet = (send: Send | undefined): string =>
  send?.on ? JSON.stringify([send.level, send.tap, send.pan]) : "off";

const sendsSet = (before: Bus | undefined, after: Bus): number =>
  after.sends.filter(
    (send) => isSet(send) !== isSet(before?.sends.find(({ channel }) => channel === send.channel)),
  ).length;

/** Things to set at the desk from one plan to another: buses made, mono or stereo, sends, direct outs, and what feeds each input. */
export const countAtDesk = (before: Setup, after: Setup): number => {
  const buses = after.buses.map((bus) => {
    const was = before.buses.find(({ id }) => id === bus.id);
    return (was?.stereo === bus.stereo ? 0 : 1) + sendsSet(was, bus);
  });
  const directOuts = after.channels.filter(({ id, directOut }) => {
    const was = before.channels.find((c) => c.id === id)?.directOut;
    return was?.on !== directOut.on || (directOut.on && was.tap !== directOut.tap);
  });
  const inputs = Array.from(
    { length: Math.max(before.monitor.inputs.length, after.monitor.inputs.length) },
    (_, i) => [before.monitor.inputs[i]?.feed ?? null, after.monitor.inputs[i]?.feed ?? null],
  ).filter(([was, is]) => JSON.stringify(was) !== JSON.stringify(is));
  return buses.reduce((sum, n) => sum + n, 0) + directOuts.length + inputs.length;
};
