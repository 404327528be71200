import { computed, effect, type ReadonlySignal, signal } from "@preact/signals-core";
import type { Desk } from "../core/model/setup";
import { alike } from "../document/amend";
import { current, readOnly } from "../document/store";
import type { Desks } from "./desks";

/** Which desk was used last: a new setup starts with it, and a setup of another desk is told apart when it is opened. */
export interface DeskInUse {
  /** The desk used last, where the open setup has another and nobody has said yet which of them to use; else null. */
  readonly other: ReadonlySignal<Desk | null>;
  /** The desk of the open setup is the one in use from now on. */
  readonly keep: () => void;
  /** What a new setup starts with; null where no desk was used yet. */
  readonly last: () => Promise<Desk | null>;
  /** The next setup that is opened is to have this desk. */
  readonly choose: (desk: Desk) => Promise<void>;
}

/**
 * Follows the desk of the open setup. That of an example is nobody's, so it is never the one used last.
 * @param openId the open setup's
 */
export const followDesk = (
  openId: ReadonlySignal<string | null>,
  desks: Pick<Desks, "recall" | "remember">,
): DeskInUse => {
  const other = signal<Desk | null>(null);
  /** The setup whose desk is the one in use; null while nobody has said so. */
  let settled: string | null = null;
  const desk = computed(() => current.value.desk);

  /** Where it cannot be noted the desk noted before is offered next time, so a failure is no trouble. */
  const remember = (setup: string | null, of: Desk): Promise<void> =>
    desks.remember({ setup, desk: of }).catch(() => {});
  const keep = (): void => {
    settled = openId.peek();
    other.value = null;
    if (!current.peek().example) void remember(settled, desk.peek());
  };
  const recall = () => desks.recall().catch(() => null);
  const compare = async (id: string): Promise<void> => {
    const last = await recall();
    // Meanwhile another was opened, or another tab edits.
    if (openId.peek() !== id || readOnly.peek()) return;
    const isOther = last && last.setup !== id && !current.peek().example && !alike(last.desk, desk.peek());
    if (isOther) other.value = last.desk;
    else keep();
  };
  effect(() => {
    const id = openId.value;
    const isMine = !readOnly.value;
    settled = null;
    other.value = null;
    if (id !== null && isMine) void compare(id);
  });
  effect(() => {
    const now = desk.value;
    const isDecided = other.peek() === null ? settled !== null : alike(other.peek(), now);
    if (isDecided && !readOnly.peek()) keep();
  });
  return {
    other,
    keep,
    last: async () => (await recall())?.desk ?? null,
    choose: (of) => remember(null, of),
  };
};
