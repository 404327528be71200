import { describe, expect, it } from "vitest";
import { ACTIONS } from "../../src/core/check/actions";
import { FAULTS, type Fault } from "../../src/core/check/faults";
import { ANSWERS } from "../../src/core/model/kinds";
import type { Action, Listener, Setup } from "../../src/core/model/setup";
import { exampleSetup } from "../../src/document/example";
import {
  ANSWER_TEXT,
  checkNames,
  describeAction,
  describeFault,
  describeObstacle,
  formatHeadline,
} from "../../src/text/check";

const setup: Setup = exampleSetup();
const mara = setup.listeners.find((l) => l.kind === "drummer") as Listener;
const names = checkNames(setup, mara);
const text = (fault: Fault) => describeFault(setup, names, { fault, channel: "s1" });

it("every sentence of a check", () => {
  expect({
    names,
    faults: Object.fromEntries((Object.keys(FAULTS) as Fault[]).map((fault) => [fault, text(fault)])),
    actions: (Object.keys(ACTIONS) as Action[]).map((action) => describeAction(names, action)),
    answers: ANSWERS.map((answer) => ANSWER_TEXT[answer]),
    obstacles: (["audience", "no-bus", "no-drum", "nothing-to-tell"] as const).map((why) =>
      describeObstacle(names, why),
    ),
    bare: {
      names: checkNames({ ...setup, monitor: { ...setup.monitor, inputs: [] } }, mara),
      folded: describeFault(
        setup,
        { ...names, first: null, second: null },
        { fault: "folded", channel: null },
      ),
      mono: describeAction({ ...names, overheads: false }, "mono"),
      unnamed: describeFault(setup, names, { fault: "missing", channel: "gone" }).name,
    },
    headlines: [
      formatHeadline([text("planned")], true),
      formatHeadline([text("swapped")], false),
      formatHeadline(
        ["swapped", "flipped", "ears-swapped"].map((f) => text(f as Fault)),
        false,
      ),
      formatHeadline(
        ["swapped", "flipped", "folded", "silent"].map((f) => text(f as Fault)),
        false,
      ),
    ],
  }).toMatchSnapshot();
});

describe("a remedy", () => {
  it("is there for every fault but none for what is as planned", () => {
    for (const fault of Object.keys(FAULTS) as Fault[])
      expect(text(fault).steps.length > 0, fault).toBe(fault !== "planned");
  });

  it("names the channel where it is one channel’s, else the bus or the listener", () => {
    expect(text("missing").name).toContain(setup.channels[0]?.name);
    expect(text("flipped").name).toContain("Mara");
    expect(text("swapped").name).toContain("Drums");
  });
});
