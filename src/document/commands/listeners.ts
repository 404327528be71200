import { nextId, uniqueName } from "../../core/model/ids";
import { isFurther, sitsAtKit } from "../../core/model/kinds";
import type { Id, Listener } from "../../core/model/setup";
import type { Metres } from "../../core/model/units";
import { amend, amendIn, kept } from "../amend";
import { type Command, during, type EditCommand, edit, fieldsOf, step } from "../command";
import { LIMITS } from "../limits";
import { mend } from "../mend";

/** A new performer in front of the kit who faces the audience and hears what the drummer hears. Nothing happens beyond `LIMITS.listeners`. */
export const addListener = (name = "Performer"): Command =>
  step("add listener", (file) => {
    const { listeners } = file;
    if (listeners.length >= LIMITS.listeners) return file;
    const listener: Listener = {
      id: nextId("l", listeners),
      name: uniqueName(name, listeners),
      kind: "performer",
      x: 0,
      y: 2,
      facing: 0,
      bus: listeners.find((l) => sitsAtKit(l))?.bus ?? null,
      flipped: false,
      mono: false,
    };
    return { ...file, listeners: [...listeners, listener] };
  });

/** Changes what is said of a listener; who is drummer, performer or audience stays. */
export const editListener = (id: Id, patch: Partial<Omit<Listener, "id" | "kind">>): EditCommand =>
  edit("change listener", `listener ${id} ${fieldsOf(patch)}`, (file) =>
    mend(amend(file, { listeners: amendIn(file.listeners, id, patch) })),
  );

/** One move of a listener under the finger: metres from the throne to house right and towards the audience. */
export const moveListener = (id: Id, x: Metres, y: Metres): Command =>
  during(
    edit("move listener", `listener ${id} x+y`, (file) =>
      amend(file, { listeners: amendIn(file.listeners, id, { x, y }) }),
    ),
  );

/** Whether somebody can be removed: a performer, and whoever is not the last of a kind that every setup has. */
export const isRemovable = (listeners: readonly Listener[], listener: Listener): boolean =>
  isFurther(listener) || listeners.filter(({ kind }) => kind === listener.kind).length > 1;

/** Removes a performer, or one of several who hear FOH; a drummer and an audience stay. */
export const removeListener = (id: Id): Command =>
  step("remove listener", (file) => {
    const stays = (l: Listener): boolean => l.id !== id || !isRemovable(file.listeners, l);
    return mend(amend(file, { listeners: kept(file.listeners, stays) }));
  });
