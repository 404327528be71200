import { signal } from "@preact/signals";
import { LIMITS } from "../../document/limits";
import { shelf } from "../../shelf/here";
import { Portion } from "../../ui/portion";
import { TextField } from "../../ui/text-field";
import { SetupRow } from "./setup-row";

const wanted = signal("");

/** From so many setups on a search is worth its room. A design choice. */
const MANY = 5;

const alike = (name: string, search: string): boolean =>
  name.toLocaleLowerCase().includes(search.trim().toLocaleLowerCase());

/** Every setup on the shelf, last changed first. */
export const SetupList = () => {
  const all = shelf.list.value;
  const found = all.length < MANY ? all : all.filter((line) => alike(line.name, wanted.value));
  return (
    <section class="stack" aria-labelledby="list">
      <h2 id="list">On this device</h2>
      {all.length < MANY ? null : (
        <TextField
          label="Search by name"
          most={LIMITS.name}
          value={wanted.value}
          onValue={(text) => {
            wanted.value = text;
          }}
        />
      )}
      <p class="hidden-visually" role="status">
        {found.length} of {all.length} setups shown
      </p>
      {found.length === 0 ? <p class="soft">No setup has this in its name.</p> : null}
      <Portion what="more" items={found} each={(line) => <SetupRow key={line.id} line={line} />} />
    </section>
  );
};
