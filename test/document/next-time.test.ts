import { expect, it } from "vitest";
import { deskList } from "../../src/core/inputs/desk-list";
import { channelsTyped } from "../../src/core/inputs/typed";
import { editChannel } from "../../src/document/commands/channels";
import { startCheck, tickInput } from "../../src/document/commands/check";
import { tickMove } from "../../src/document/commands/desk";
import { setUpNextTime } from "../../src/document/commands/next-time";
import { exampleSetup } from "../../src/document/example";
import { back, beginHistory, record } from "../../src/document/history";
import { LIMITS } from "../../src/document/limits";
import { mend } from "../../src/document/mend";
import { applied } from "./commands";

const STAMP = { at: "2031-05-04T18:20:00.000Z", by: "Jo" };
const example = exampleSetup();
const idOf = (name: string): string =>
  [...example.channels, ...example.listeners].find((t) => t.name === name)?.id ?? "";
const { channels: fresh } = channelsTyped("Congas\n24 Sub bass", example, LIMITS);
const answers = {
  drummer: "Nia, drums",
  hand: "left" as const,
  absent: [idOf("Trumpet"), idOf("Lene, keys")],
  fresh,
};

it("three answers change the plan as one step: drummer, hand, line-up", () => {
  const [move] = deskList(example);
  if (!move) throw new Error("nothing to set");
  const last = applied(example, tickInput(2, true, STAMP), tickMove(move, true, STAMP), startCheck("l2"));
  const history = record(beginHistory(last), setUpNextTime(answers, "m1"));
  const next = history.present;
  expect(history.past).toHaveLength(1);
  expect(back(history).present).toBe(last);
  expect(mend(next)).toBe(next);
  expect(next.listeners.map((l) => l.name)).toEqual(
    example.listeners.flatMap((l) =>
      l.name === "Lene, keys" ? [] : [l.kind === "drummer" ? "Nia, drums" : l.name],
    ),
  );
  expect(next.kit.hand).toBe("left");
  const hat = (file: typeof next) => file.kit.pieces.find((p) => p.name === "Hat")?.x ?? 0;
  expect(hat(next)).toBe(-hat(example));
  expect(next.channels.map((c) => c.name)).toEqual([
    ...example.channels.map((c) => c.name).filter((name) => name !== "Trumpet"),
    "Congas",
    "Sub bass",
  ]);
  expect(next.monitor.inputs.filter(Boolean)).toHaveLength(example.monitor.inputs.filter(Boolean).length - 1);
  // Sent where drums go; a bass is not.
  const drums = next.buses.find((b) => b.id === "m1")?.sends.map((s) => s.channel) ?? [];
  const named = (name: string) => next.channels.find((c) => c.name === name)?.id ?? "";
  expect([drums.includes(named("Congas")), drums.includes(named("Sub bass"))]).toEqual([true, false]);
  // The line check and the check begin anew; the desk stands as it was left.
  expect([next.lineCheck, next.check, next.tickLog]).toEqual([{}, null, undefined]);
  expect(next.deskTicks).toEqual(last.deskTicks);
});

it("what was said of the desk list stays, what was said of the line check goes", () => {
  const [move] = deskList(example);
  if (!move) throw new Error("nothing to set");
  const later = { at: "2031-05-04T18:25:00.000Z", by: "Ada" };
  const last = applied(
    example,
    tickInput(2, true, STAMP),
    tickMove(move, true, STAMP),
    tickMove(move, false, later),
  );
  expect(last.tickLog?.map((entry) => entry.control)).toContain("line check");
  const next = setUpNextTime(answers, "m1").apply(last);
  expect(next.tickLog?.map(({ control, by, said }) => [control, by, said])).toEqual([
    [move.control, "Jo", true],
    [move.control, "Ada", null],
  ]);
});

it("nothing different is the very same setup", () => {
  const drummer = example.listeners.find((l) => l.kind === "drummer")?.name ?? "";
  const same = { drummer, hand: example.kit.hand, absent: [], fresh: [] };
  expect(setUpNextTime(same, null).apply(example)).toBe(example);
});

it("is refused whole where it would hold too much, and not where as many go", () => {
  const full = {
    ...example,
    channels: Array.from({ length: LIMITS.channels }, (_, at) => ({
      ...example.channels[0],
      id: `s${at + 1}`,
      name: `C${at}`,
    })),
  } as typeof example;
  const sound = editChannel("s1", { muted: true }).apply(mend(full));
  const two = setUpNextTime({ ...answers, absent: ["s1"] }, null);
  expect(two.refuses?.(sound)).toEqual({ of: "channels", count: 513, limit: 512 });
  expect(two.apply(sound)).toBe(sound);
  expect(setUpNextTime({ ...answers, absent: ["s1", "s2"] }, null).apply(sound).channels).toHaveLength(512);
});
