import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { differences } from "../../document/compare";
import { readSetupText } from "../../document/read-setup";
import type { SetupFile } from "../../document/schema";
import { shelf } from "../../shelf/here";
import { troubleOf } from "../../shelf/trouble";
import { formatCount } from "../../text/words";
import { Pick } from "../../ui/choice";
import { setupName } from "../shown-names";
import { Facts } from "./facts";

type Pair = readonly [SetupFile, SetupFile];

const read = async (id: string): Promise<SetupFile> => {
  const result = readSetupText(await shelf.textOf(id));
  if (!result.ok) throw new Error(result.why);
  return result.file;
};

const Sentences = ({ pair }: { pair: Pair }) => {
  const found = differences(...pair);
  const parts = [...new Set(found.map((d) => d.part))];
  return (
    <>
      <p role="status">
        {found.length === 0
          ? "No difference except the name."
          : `${formatCount(found.length, "difference")}. In “${setupName(pair[1])}”:`}
      </p>
      {parts.map((part) => (
        <div class="stack" key={part}>
          <h3>{part}</h3>
          <ul class="differences">
            {found
              .filter((d) => d.part === part)
              .map(({ says }) => (
                <li key={says}>{says}</li>
              ))}
          </ul>
        </div>
      ))}
    </>
  );
};

/** Two setups side by side, and in words what the second has otherwise than the first. */
export const Compare = () => {
  const list = shelf.list.value;
  const chosen = useSignal<readonly [string | null, string | null]>([null, null]);
  const pair = useSignal<Pair | string | null>(null);
  const openId = shelf.openId.value ?? "";
  const second = list.find((l) => l.id === chosen.value[1])?.id ?? openId;
  const other = list.find((l) => l.id !== second)?.id ?? openId;
  const first = list.find((l) => l.id === chosen.value[0])?.id ?? other;
  useEffect(() => {
    let isStale = false;
    Promise.all([read(first), read(second)]).then(
      (files) => {
        if (!isStale) pair.value = files;
      },
      (error: unknown) => {
        if (!isStale) pair.value = troubleOf(error);
      },
    );
    return () => {
      isStale = true;
    };
  }, [first, second, list, pair]);
  const options = list.map((l) => [l.id, setupName(l)] as const);
  const shown = pair.value;
  return (
    <div class="stack">
      <div class="beside">
        {[first, second].map((id, at) => (
          <div class="stack" key={at === 0 ? "first" : "second"}>
            <Pick
              label={at === 0 ? "First" : "Second"}
              value={id}
              options={options}
              onValue={(to) => {
                chosen.value = at === 0 ? [to, second] : [first, to];
              }}
            />
            {shown && typeof shown !== "string" ? <Facts file={shown[at] as SetupFile} notes={[]} /> : null}
          </div>
        ))}
      </div>
      {typeof shown === "string" ? <p class="notice bad">Not compared: {shown}.</p> : null}
      {shown && typeof shown !== "string" ? <Sentences pair={shown} /> : null}
    </div>
  );
};
