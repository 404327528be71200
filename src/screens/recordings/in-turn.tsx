import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";

/** Parts that are made one after the other, each in a task of its own, so that many of them hold nobody up. */
export const InTurn = ({ parts }: { parts: readonly (() => ComponentChildren)[] }) => {
  const made = useSignal(1);
  useEffect(() => {
    if (made.value >= parts.length) return;
    const timer = setTimeout(() => {
      made.value += 1;
    });
    return () => clearTimeout(timer);
  }, [made.value]);
  return <>{parts.slice(0, made.value).map((part) => part())}</>;
};
