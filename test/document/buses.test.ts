import { expect, it } from "vitest";
import { addBus, duplicateBus, removeBus, setSend, swapBus } from "../../src/document/commands/buses";
import { duplicateChannel } from "../../src/document/commands/channels";
import { bandSetup } from "./band";
import { applied } from "./commands";

const example = bandSetup();
const two = applied(example, addBus(true, "Horns"), setSend("m2", "s12", { level: -3, pan: 0.5 }));
const [drums, horns] = two.buses;

it("one of two sums is taken away, the other is the very same", () => {
  expect(applied(two, removeBus("m2")).buses).toEqual([drums]);
  expect(applied(two, removeBus("m1")).buses).toEqual([horns]);
});

it("the copy is of the bus that is meant, under an id and a name of its own", () => {
  expect(applied(two, duplicateBus("m2")).buses).toEqual([
    drums,
    horns,
    { ...horns, id: "m3", name: "Horns 2" },
  ]);
});

it("a send is changed in one bus only", () => {
  const { buses } = applied(two, setSend("m2", "s1", {}));
  expect(buses[0]).toBe(drums);
  expect(buses[1]?.sends.map((send) => send.channel)).toEqual(["s12", "s1"]);
});

it("the pair that is meant is swapped", () => {
  const { buses } = applied(two, swapBus("m2"));
  expect(buses[0]).toBe(drums);
  expect(buses[1]).toEqual({ ...horns, swapped: true });
});

it("a copy of a channel is sent as the channel is, and into no bus that the channel is not in", () => {
  const more = applied(two, setSend("m2", "s13", {}));
  const { buses } = applied(more, duplicateChannel("s12"));
  expect(buses[0]).toBe(drums);
  expect(buses[1]?.sends).toEqual([
    { channel: "s12", on: true, level: -3, tap: "post-fader" as const, pan: 0.5 },
    { channel: "s13", on: true, level: 0, tap: "post-fader" as const, pan: null },
    { channel: "s19", on: true, level: -3, tap: "post-fader" as const, pan: 0.5 },
  ]);
  const last = applied(more, duplicateChannel("s13")).buses[1]?.sends.at(-1);
  expect(last).toEqual({ channel: "s19", on: true, level: 0, tap: "post-fader" as const, pan: null });
});
