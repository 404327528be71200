import type { SheetRow } from "../../core/inputs/sheet";
import { moveInput } from "../../document/commands/inputs";
import { current, endVisit } from "../../document/store";
import { Sortable } from "../../ui/sortable";
import { typing } from "../act";
import { InputRow } from "./input-row";

/** Every input in its order; dragged by the handle, moved by keys, opened by a tap. */
export const InputList = ({ rows }: { rows: readonly SheetRow[] }) => (
  <Sortable
    label="Inputs"
    items={rows.map((row) => ({
      key: String(row.input),
      name: `input ${row.input}`,
      fixed: row.feed === null,
    }))}
    onMove={(from, to) => {
      const input = current.value.monitor.inputs[from] ?? null;
      typing(moveInput(from, to));
      return current.value.monitor.inputs.indexOf(input);
    }}
    onDone={endVisit}
    row={(at) => {
      const row = rows[at];
      return row ? <InputRow row={row} /> : null;
    }}
  />
);
