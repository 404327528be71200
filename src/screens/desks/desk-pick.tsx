import { computed, signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Desk } from "../../core/model/setup";
import { alike } from "../../document/amend";
import { BLANK_DESK } from "../../document/blank";
import { deskOf } from "../../document/desk-file";
import { deskInUse, desks } from "../../shelf/desks-here";
import { Pick } from "../../ui/choice";
import { deskTitle } from "../shown-names";

/** A desk that a new setup can start with. */
interface Start {
  readonly id: string;
  readonly says: string;
  readonly desk: Desk;
}

const NEW: Start = { id: "new", says: "A new desk, typical values", desk: BLANK_DESK };

const last = signal<Desk | null>(null);
const wanted = signal<string | null>(null);

/** What there is to start with, the desk used last first. */
const starts = computed((): readonly Start[] => {
  const used = last.value;
  const saved = desks.list.value.flatMap(({ id, read }) =>
    read.ok ? [{ id, desk: deskOf(read.file) }] : [],
  );
  const isLast = (desk: Desk): boolean => used !== null && alike(desk, used);
  const others = saved.filter(({ desk }) => !isLast(desk));
  return [
    ...(used ? [{ id: "last", says: `${deskTitle(used)} (used last)`, desk: used }] : []),
    ...others.map(({ id, desk }) => ({ id, says: deskTitle(desk), desk })),
    ...(used && alike(used, BLANK_DESK) ? [] : [NEW]),
  ];
});

const chosen = (): Start => {
  const all = starts.value;
  return all.find(({ id }) => id === wanted.value) ?? all[0] ?? NEW;
};

/** Reads what there is; where that fails, a new desk is all there is. */
const readStarts = async (): Promise<void> => {
  last.value = await deskInUse.last();
  await desks.readAll().catch(() => {});
};

/** The desk that the next new setup starts with; from now on it is the one used last. */
export const startingDesk = async (): Promise<Desk> => {
  await readStarts();
  const { desk } = chosen();
  await deskInUse.choose(desk);
  return desk;
};

/** The desk that a new setup starts with: the one used last, or another; nothing where there is none to choose. */
export const DeskPick = () => {
  useEffect(() => void readStarts(), []);
  if (starts.value.length < 2) return null;
  return (
    <Pick
      label="Desk"
      value={chosen().id}
      options={starts.value.map(({ id, says }) => [id, says] as const)}
      onValue={(id) => {
        wanted.value = id;
      }}
    />
  );
};
