import type { SheetRow } from "../../core/patch/sheet";
import { moveSlot } from "../../document/commands/slots";
import { current, endDrag } from "../../document/store";
import { Sortable } from "../../pieces/sortable";
import { typing } from "../act";
import { SlotRow } from "./slot-row";

/** Every slot in its order; dragged by the handle, moved by keys, opened by a tap. */
export const SlotList = ({ rows }: { rows: readonly SheetRow[] }) => (
  <Sortable
    label="Slots"
    items={rows.map((row) => ({ key: String(row.slot), name: `slot ${row.slot}`, fixed: row.name === "" }))}
    onMove={(from, to) => {
      const slot = current.value.monitor.slots[from] ?? null;
      typing(moveSlot(from, to));
      return current.value.monitor.slots.indexOf(slot);
    }}
    onDone={endDrag}
    row={(at) => {
      const row = rows[at];
      return row ? <SlotRow row={row} /> : null;
    }}
  />
);
