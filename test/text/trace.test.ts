import { expect, it } from "vitest";
import { arrivalsOf } from "../../src/core/inputs/arrivals";
import { fohTakes, idleDirectOuts, inputsWithoutPort } from "../../src/core/inputs/foh-reach";
import { chainOf, routesOf, type TraceAbout } from "../../src/core/inputs/trace";
import { LINK_RULES, type TraceLink } from "../../src/core/inputs/trace-links";
import type { Listener, Setup } from "../../src/core/model/setup";
import { listenerName } from "../../src/text/names";
import { describeIdle, describePortless, describeTake } from "../../src/text/switch-audit";
import {
  describeArrivals,
  describeBreaks,
  describeTrace,
  formatAbout,
  formatArrival,
} from "../../src/text/trace";
import {
  describeBreak,
  describeLink,
  describeLook,
  describeRemedy,
  LINK_TABLE,
} from "../../src/text/trace-links";
import { bus, channel, direct, listener, setup, side } from "../core/inputs/setups";

const band = (): Setup => {
  const of = setup(
    [
      channel("kick", { name: "Kick", numbers: [1] }),
      channel("bass", { name: "Bass", numbers: [12] }),
      channel("keys", { name: "Keys", lines: 2, numbers: [13, 14] }),
      channel("tuba", { name: "Tuba" }),
    ],
    [bus("drums", ["kick"], { name: "Drum bus", numbers: [5, 6] })],
    [
      side("drums", "left", { port: 1 }),
      side("drums", "right", { port: 2 }),
      direct("bass"),
      direct("keys", "left", { port: 4 }),
      direct("keys", "right", { port: 5 }),
    ],
    16,
    [listener("mara", { name: "Mara, drums", kind: "drummer", bus: "drums" })],
  );
  return {
    ...of,
    desk: {
      ...of.desk,
      portName: "Card",
      firstPort: 1,
      muteRule: { preFaderSends: false, directOuts: ["post-fader"] },
    },
  };
};

/** Every switch off, every fader down, one port for all. */
const stopped = (): Setup => {
  const of = band();
  return {
    ...of,
    channels: of.channels.map((c) => ({
      ...c,
      muted: true,
      fader: null,
      directOut: { tap: "post-fader", on: false, trim: 0 },
    })),
    buses: of.buses.map((b) => ({
      ...b,
      fader: null,
      sends: b.sends.map((s) => ({ ...s, on: false, level: null })),
    })),
    monitor: {
      ...of.monitor,
      link: "analog",
      inputs: of.monitor.inputs.map((i, at) => (at === 1 ? null : i && { ...i, port: 9, on: false })),
    },
  };
};

const ABOUTS: readonly TraceAbout[] = [
  { what: "channel", channel: "kick", bus: "drums" },
  { what: "channel", channel: "bass", bus: null },
  { what: "channel", channel: "keys", bus: null },
  { what: "input", input: 0 },
  { what: "everything" },
  { what: "side", side: "left" },
];

const chain = (of: Setup, about: TraceAbout): readonly TraceLink[] =>
  chainOf(of, of.listeners.find((l) => l.id === "mara") as Listener, about) ?? [];

const sound = (lines: readonly string[]): string => {
  for (const line of lines) expect(line).not.toMatch(/undefined|null|NaN|Infinity| {2}|\.\.|, ,|\(\)/);
  return `\n${lines.join("\n")}\n`;
};

const texts = (of: Setup): string[] =>
  ABOUTS.flatMap((about) => [
    `# ${formatAbout(of, about)}`,
    ...chain(of, about).flatMap((link) => {
      const { name, value } = describeLink(of, link);
      const { where, how } = describeLook(of, link);
      return [
        `${name}: ${value}`,
        ...(where ? [`  look: ${where}. ${how}`] : []),
        ...(link.broken ? [`  plan: ${describeBreak(of, link)}`] : []),
        `  do: ${describeRemedy(of, link)}`,
      ].map((line) => line.replace(/^ {2}/, "- "));
    }),
  ]);

it("the wording of every chain", () => {
  expect(sound(texts(band()))).toMatchSnapshot();
});

it("the wording of every chain that the plan stops", () => {
  expect(sound(texts(stopped()))).toMatchSnapshot();
});

it("every link that a plan can break has words for it", () => {
  const links = ABOUTS.flatMap((about) => chain(stopped(), about)).filter((l) => l.broken);
  expect(new Set(links.map((l) => l.code))).toEqual(
    new Set(["mute", "feed", "level", "port", "monitor input", "stereo link"]),
  );
  for (const link of links) expect(describeBreak(stopped(), link)).not.toBe("");
});

it("the wording of how far a trace has come", () => {
  const of = band();
  const links = chain(of, ABOUTS[1] as TraceAbout);
  const stages = [
    describeTrace(of, null, [], true, "Tuba"),
    describeTrace(of, links, [], true, "Bass"),
    describeTrace(of, links, links, false, "Bass"),
    describeTrace(of, links, links.slice(1, 3), true, "Bass"),
    describeTrace(of, links, links.slice(1, 2), true, "Bass"),
    describeBreaks(stopped(), chain(stopped(), ABOUTS[0] as TraceAbout), "Kick"),
  ];
  expect(stages).toMatchSnapshot();
  expect(describeBreaks(of, links, "Bass")).toBeNull();
  expect(routesOf(of, "tuba")).toEqual([]);
});

it("the wording of what arrives once, twice, thrice, or not", () => {
  const of = band();
  const more = [...of.monitor.inputs, direct("kick"), direct("kick")];
  const thrice = { ...of, monitor: { ...of.monitor, inputs: more } };
  const twice = { ...of, monitor: { ...of.monitor, inputs: more.slice(0, -1) } };
  const lines = [of, twice, thrice].flatMap((s) =>
    ["kick", "bass", "tuba"].flatMap((id) => {
      const arrivals = arrivalsOf(s, id);
      const { tone, says, more: then } = describeArrivals(s, id, arrivals);
      return [`${tone}: ${says}. ${then}`, ...arrivals.map((a) => `- ${formatArrival(s, a)}`)];
    }),
  );
  expect(sound(lines)).toMatchSnapshot();
});

it("the table shows the weights and costs that the search takes, each link once", () => {
  const rules = Object.values(LINK_RULES);
  expect(LINK_TABLE.map(([, weight]) => Number(weight))).toEqual(rules.map((r) => r.weight));
  expect(LINK_TABLE.map(([, , cost]) => (cost === "can’t look" ? null : Number(cost)))).toEqual(
    rules.map((r) => r.lookCost),
  );
});

it("the wording of the switch audit", () => {
  const of = band();
  const ruled = {
    ...of,
    desk: { ...of.desk, muteRule: { preFaderSends: true, directOuts: ["pre-fader"] } },
  } as Setup;
  const lines = [of, ruled].flatMap((s) =>
    s.listeners.flatMap((listener) =>
      fohTakes(s, listener).map((take) => {
        const { channel, mute, fader } = describeTake(s, take);
        return `${channel} at ${listenerName(listener)}: mute ${mute}, fader ${fader}`;
      }),
    ),
  );
  const some = describeTake(of, { channel: "bass", ways: [null, "drums"], cut: ["drums"], moved: [null] });
  expect([some.mute, some.fader]).toEqual([
    "cuts Drum bus, not its direct out",
    "moves its direct out, not Drum bus",
  ]);
  const rest = [describeIdle(of, idleDirectOuts(of)), describeIdle(of, ["bass"]), describeIdle(of, [])];
  const ports = [describePortless(inputsWithoutPort(of)), describePortless([1, 2]), describePortless([])];
  expect(sound([...lines, ...rest, ...ports])).toMatchSnapshot();
});
