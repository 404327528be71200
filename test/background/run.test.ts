import { describe, expect, it } from "vitest";
import { runInWorker, type WorkerFault } from "../../src/background/run";

/** A worker that does as it is told, and how often it was ended. */
const stub = () => {
  const told: unknown[] = [];
  const worker = {
    ended: 0,
    onmessage: null as ((event: { data: string }) => void) | null,
    onerror: null as ((event: { message: string }) => void) | null,
    onmessageerror: null as (() => void) | null,
    postMessage: (message: unknown) => told.push(message),
    terminate: () => {
      worker.ended += 1;
    },
  };
  const heard: string[] = [];
  const faults: WorkerFault[] = [];
  const end = runInWorker<string>({
    make: () => worker as unknown as Worker,
    message: "task",
    heard: (reply) => {
      heard.push(reply);
      return reply === "last";
    },
    failed: (fault) => faults.push(fault),
  });
  return { worker, told, heard, faults, end };
};

describe("a task in a worker", () => {
  it("is told once, heard until the last answer, and the worker ended with it", () => {
    const { worker, told, heard, faults } = stub();
    expect(told).toEqual(["task"]);
    const { onmessage } = worker;
    onmessage?.({ data: "half" });
    expect(worker.ended).toBe(0);
    onmessage?.({ data: "last" });
    expect([heard, faults, worker.ended, worker.onmessage]).toEqual([["half", "last"], [], 1, null]);
  });

  it("ended before its time is heard of no more", () => {
    const { worker, end, heard } = stub();
    end();
    worker.onmessage?.({ data: "late" });
    expect([heard, worker.ended]).toEqual([[], 1]);
  });

  it("that fails on its way says why, and is ended", () => {
    const { worker, faults } = stub();
    worker.onerror?.({ message: "out of memory" });
    const silent = stub();
    silent.worker.onerror?.({ message: "" });
    const garbled = stub();
    garbled.worker.onmessageerror?.();
    expect([worker.ended, silent.worker.ended, garbled.worker.ended]).toEqual([1, 1, 1]);
    const all = [...faults, ...silent.faults, ...garbled.faults];
    expect(all).toEqual([
      { when: "run", why: { reason: "out of memory" } },
      { when: "run", why: "not loaded" },
      { when: "run", why: "no answer" },
    ]);
  });

  it("that cannot be started says so", () => {
    const faults: WorkerFault[] = [];
    runInWorker({
      make: () => {
        throw new Error("no workers here");
      },
      message: 1,
      heard: () => true,
      failed: (fault) => faults.push(fault),
    })();
    expect(faults).toEqual([{ when: "start", why: { reason: "Error: no workers here" } }]);
  });
});
