import { expect, it } from "vitest";
import { controlsOf } from "../../src/core/inputs/controls-of";
import { type DeskMove, deskList, deskMoves, deskParts, kinshipOf } from "../../src/core/inputs/desk-list";
import type { Setup } from "../../src/core/model/setup";
import { exampleSetup } from "../../src/document/example";
import { describeMove, describeUnrelated, formatSection, namesOfBoth } from "../../src/text/desk-list";
import { bus, channel, direct, listener, setup, side } from "../core/inputs/setups";

const band = (): Setup => {
  const of = setup(
    [
      channel("bass", { name: "Bass", numbers: [12] }),
      channel("keys", { name: "Keys", lines: 2, numbers: [13, 14] }),
      channel("", { name: "" }),
    ],
    [
      bus("drums", ["bass", ""], { name: "Drums", numbers: [5, 6] }),
      bus("m2", [], { name: "", stereo: false }),
    ],
    [side("drums", "left", { port: 9 }), direct("bass"), direct("keys", "left", { port: 4 })],
    16,
    [listener("mara", { name: "Mara, drums", kind: "drummer", bus: "drums" })],
  );
  return { ...of, desk: { ...of.desk, portName: "Card", firstPort: 1 } };
};

/** Everything off its rest. */
const other = (): Setup => {
  const of = band();
  return {
    ...of,
    channels: of.channels.map((c) => ({
      ...c,
      inverted: true,
      muted: true,
      pan: -0.3,
      fader: -4,
      lines: c.id === "bass" ? 2 : c.lines,
      numbers: c.numbers.map((n) => n + 1),
      directOut: { tap: "pre-eq", on: true, trim: -3 },
    })),
    buses: of.buses.map((b) => ({
      ...b,
      stereo: true,
      numbers: [7, 8],
      fader: null,
      trim: -1,
      sideTrim: [0, -1.5],
      sideInverted: [false, true],
      folded: true,
      padDb: 20,
      sends: b.sends.slice(0, 1).map((s) => ({ ...s, level: -6, tap: "pre-fader", pan: 0.2 })),
    })),
    listeners: of.listeners.map((l) =>
      l.kind === "audience" ? l : { ...l, bus: null, flipped: true, mono: true },
    ),
    monitor: {
      ...of.monitor,
      inputs: [direct("keys", "right", { port: 9, on: false, trim: 2 }), null, ...of.monitor.inputs.slice(2)],
    },
  };
};

const lines = (from: Setup | null, to: Setup, moves: readonly DeskMove[]): string[] =>
  deskParts(from, to, moves).flatMap(({ section, moves: its }) => [
    `# ${formatSection(section)}`,
    ...its.map((move) => {
      const { where, control, value } = describeMove(namesOfBoth(from, to), move);
      return `${where}, ${control}: ${value}`;
    }),
  ]);

const whole = (texts: readonly string[]): string => {
  for (const text of texts) expect(text).not.toMatch(/undefined|null|NaN|Infinity| {2}|: $|, ,/);
  return `\n${texts.join("\n")}\n`;
};

it("the wording of the desk list from nothing", () => {
  expect(whole(lines(null, band(), deskList(band())))).toMatchSnapshot();
});

it("the wording of every control that differs, there and back", () => {
  expect(whole(lines(band(), other(), deskMoves(band(), other())))).toMatchSnapshot();
  expect(whole(lines(other(), band(), deskMoves(other(), band())))).toMatchSnapshot();
});

it("the wording of a feed that goes out through another port, or through none yet", () => {
  const at = (port: number | null): Setup => {
    const { monitor } = band();
    const inputs = monitor.inputs.map(
      (input, index) => input && { ...input, port: index === 0 ? port : null },
    );
    return { ...band(), monitor: { ...monitor, inputs } };
  };
  const said = (from: Setup, to: Setup) => lines(from, to, deskMoves(from, to)).slice(1);
  expect(said(at(0), at(1)).join()).toMatch(/^\S+ \d+, In 1, from: via \S+ \d+ → via \S+ \d+$/);
  expect(said(at(0), at(null)).join()).toMatch(/^In 1, from: via \S+ \d+ → no port$/);
});

it("the wording of what was ticked at something else", () => {
  const off: Setup = {
    ...band(),
    channels: band().channels.map((c) => ({ ...c, directOut: { ...c.directOut, tap: "post-fader" } })),
  };
  const moves = deskList(off, controlsOf(band())).filter((m) => m.control === "direct out");
  expect(whole(lines(null, off, moves))).toMatchSnapshot();
});

it("the worked example’s list is whole and short", () => {
  const texts = lines(null, exampleSetup(), deskList(exampleSetup()));
  whole(texts);
  expect(texts.length).toBeLessThan(90);
});

it("the wording of different bands", () => {
  expect(describeUnrelated(kinshipOf(exampleSetup(), band()))).toBe(
    "These are different bands: 2 channel names of 20 in common. Set the desk from nothing.",
  );
});
