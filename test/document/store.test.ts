import { effect } from "@preact/signals-core";
import { beforeEach, describe, expect, it } from "vitest";
import { busFigures } from "../../src/core/headroom/figures";
import { addChannel, dragPan } from "../../src/document/commands/channels";
import { rename } from "../../src/document/commands/settings";
import {
  canRedo,
  canUndo,
  current,
  endVisit,
  figures,
  load,
  nameAsKept,
  readOnly,
  redo,
  run,
  undo,
} from "../../src/document/store";
import { bandSetup } from "./band";

const example = bandSetup();

beforeEach(() => {
  readOnly.value = false;
  load(example);
});

describe("the store", () => {
  it("says what can be undone and redone", () => {
    expect([canUndo.value, canRedo.value]).toEqual([null, null]);
    run(addChannel(null));
    run(rename("Other"));
    undo();
    expect([canUndo.value, canRedo.value]).toEqual(["add channel", "rename"]);
    redo();
    expect([canUndo.value, canRedo.value]).toEqual(["rename", null]);
  });

  it("takes a drag back as one", () => {
    for (const pan of [0.1, 0.2, 0.3]) run(dragPan("s1", pan));
    endVisit();
    run(dragPan("s1", 0.4));
    undo();
    expect(current.value.channels[0]?.pan).toBe(0.3);
    undo();
    expect(current.value).toBe(example);
  });

  it("keeps the figures in step", () => {
    const all = () => current.value.buses.map(({ id }) => figures.value.buses.get(id));
    const before = all();
    expect(before).toEqual(current.value.buses.map((bus) => busFigures(current.value, bus)));
    run(dragPan("s3", -1));
    expect(all()).not.toEqual(before);
    undo();
    expect(all()).toEqual(before);
  });

  it("refuses every change while another tab edits, but opens what that tab has", () => {
    run(rename("Mine"));
    undo();
    readOnly.value = true;
    run(rename("Other"));
    redo();
    expect(current.value).toBe(example);
    readOnly.value = false;
    redo();
    readOnly.value = true;
    undo();
    expect(current.value.name).toBe("Mine");
    load({ ...example, name: "Theirs" });
    expect(current.value.name).toBe("Theirs");
    run(rename("Other"));
    undo();
    expect(current.value.name).toBe("Theirs");
  });

  it("shows the name by which the setup lies on the shelf, whoever edits, with nothing more to undo", () => {
    run(dragPan("s1", 0.5));
    readOnly.value = true;
    nameAsKept("Other hall 2");
    expect([current.value.name, current.value.channels[0]?.pan]).toEqual(["Other hall 2", 0.5]);
    readOnly.value = false;
    undo();
    expect(current.value).toEqual({ ...example, name: "Other hall 2" });
    expect(canUndo.value).toBe(null);
  });

  it("tells nobody of a command that changes nothing", () => {
    let told = 0;
    const stop = effect(() => {
      current.value;
      told += 1;
    });
    run(rename(example.name));
    run(dragPan("nobody", 1));
    stop();
    expect(told).toBe(1);
  });
});
