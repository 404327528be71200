import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { deskMoves, kinshipOf } from "../../core/inputs/desk-list";
import { aligned } from "../../document/align";
import { compareSetups } from "../../document/compare";
import type { SetupFile } from "../../document/schema";
import { shelf } from "../../shelf/here";
import { troubleOf } from "../../shelf/trouble";
import { describeDifference } from "../../text/compare";
import { describeMove, describeUnrelated, namesOfBoth } from "../../text/desk-list";
import { formatCount } from "../../text/words";
import { Pick } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { readKept } from "../kept-setup";
import { setupName } from "../shown-names";
import { Facts } from "./facts";

type Pair = readonly [SetupFile, SetupFile];

/** What to set at the desk from the first setup to the second, or why nobody would. */
const AtDesk = ({ pair: [first, second] }: { pair: Pair }) => {
  const kin = kinshipOf(first, second);
  if (kin.isUnrelated) return <p class="notice">{describeUnrelated(kin)}</p>;
  const from = aligned(first, second);
  const names = namesOfBoth(from, second);
  const moves = deskMoves(from, second).map((move) => describeMove(names, move));
  return moves.length === 0 ? (
    <p>Nothing to set at the desk.</p>
  ) : (
    <>
      <h3>{formatCount(moves.length, "thing")} to set at the desk</h3>
      <ul aria-label="What to set at the desk">
        {moves.map(({ where, control, value }) => (
          <li key={`${where} ${control} ${value}`}>
            {where}, {control}: {value}
          </li>
        ))}
      </ul>
    </>
  );
};

/** So many differences are read at a glance. A design choice. */
const FEW = 8;

const Sentences = ({ pair }: { pair: Pair }) => {
  const comparison = compareSetups(...pair);
  const found = comparison.differences.map((difference) => ({
    part: difference.part,
    says: describeDifference(difference, comparison),
  }));
  const parts = [...new Set(found.map((d) => d.part))];
  return (
    <>
      <p role="status">
        {found.length === 0
          ? "No difference except the name."
          : `${formatCount(found.length, "difference")}. In “${setupName(pair[1])}”:`}
      </p>
      {found.length > 0 ? <AtDesk pair={pair} /> : null}
      {found.length > 0 ? (
        <Fold title="Everything that differs" look="plain" open={found.length <= FEW}>
          {() =>
            parts.map((part) => (
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
            ))
          }
        </Fold>
      ) : null}
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
    Promise.all([readKept(first), readKept(second)]).then(
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
