import { expect, it } from "vitest";
import { deskIssues } from "../../../src/core/inputs/desk-issues";
import { pairIssues } from "../../../src/core/inputs/pair-issues";
import { portNumber, portOf, portRange } from "../../../src/core/model/ports";
import { bus, channel, direct, setup, side } from "./setups";

const brief = (s: Parameters<typeof deskIssues>[0]) =>
  deskIssues(s).map(({ code, channels, buses, inputs, values }) => [code, channels, buses, inputs, values]);

it("two channels with one number, and a number beyond the desk", () => {
  const s = setup([channel("a", { numbers: [7] }), channel("b", { numbers: [7, 8] }), channel("c")], [], []);
  const desk = { ...s.desk, channelCount: 7 };
  expect(brief({ ...s, desk })).toEqual([
    ["same number", ["a", "b"], [], [], { number: 7 }],
    ["beyond desk", ["b"], [], [], { count: 7 }],
  ]);
  expect(brief({ ...s, desk: { ...desk, channelCount: 8 } }).map(([code]) => code)).toEqual(["same number"]);
});

it("two buses with one number, and a number beyond the desk; a channel may have the number of a bus", () => {
  const s = setup(
    [channel("a", { numbers: [5] })],
    [bus("m", [], { numbers: [5, 6] }), bus("n", [], { numbers: [6] }), bus("o", [], { numbers: [17] })],
    [],
  );
  expect(brief({ ...s, desk: { ...s.desk, busCount: 16 } })).toEqual([
    ["same number", [], ["m", "n"], [], { number: 6 }],
    ["beyond desk", [], ["o"], [], { count: 16 }],
  ]);
});

it("inputs fed by ports that the desk has not", () => {
  const channels = [channel("a"), channel("b")];
  const s = setup(channels, [], [direct("a", "both", { port: 8 }), direct("b", "both", { port: 9 })]);
  const of = (portCount: number) => brief({ ...s, desk: { ...s.desk, portCount } });
  expect(of(9)).toEqual([]);
  expect(of(8)).toEqual([["beyond ports", [], [], [1], { last: 8 }]]);
});

it("a port is used twice where it is to carry different signals", () => {
  const channels = [channel("a"), channel("b")];
  const s = setup(channels, [], [direct("a", "both", { port: 4 }), null, direct("b", "both", { port: 4 })]);
  expect(brief(s)).toEqual([["same port", [], [], [0, 2], { port: 4 }]]);
  const same = setup(channels, [], [direct("a", "both", { port: 4 }), direct("a", "both", { port: 4 })]);
  expect(brief(same)).toEqual([]);
  expect(brief(setup(channels, [], [direct("a"), direct("b")]))).toEqual([]);
});

it("sends that are off are told of buses that are patched", () => {
  const sends = bus("m", ["a", "b"]).sends.map((send) => ({ ...send, on: send.channel === "a" }));
  const channels = [channel("a"), channel("b")];
  expect(brief(setup(channels, [bus("m", [], { sends })], [side("m", "left")]))).toEqual([
    ["send off", ["b"], ["m"], [], null],
  ]);
  expect(brief(setup(channels, [bus("m", [], { sends })], []))).toEqual([]);
});

it("a side that is added takes no port along", () => {
  const s = setup([channel("a")], [bus("m", ["a"])], [side("m", "left", { port: 4 })]);
  const [found] = pairIssues(s);
  expect(found?.fix).toEqual([{ edit: "input", index: 1, to: side("m", "right") }]);
});

it("ports are named from the desk's first", () => {
  const desk = { firstPort: 9, portCount: 8 };
  expect([portNumber(desk, 1), portOf(desk, 16), portRange(desk)]).toEqual([9, 8, { min: 9, max: 16 }]);
});
