import "./desk.css";
import { useSignal } from "@preact/signals";
import { controlValue } from "../../core/inputs/controls";
import { type DeskMove, deskParts } from "../../core/inputs/desk-list";
import { quoted } from "../../core/lib/direction";
import { clearDeskTicks, tickMove } from "../../document/commands/desk";
import { current, run } from "../../document/store";
import { shelf } from "../../shelf/here";
import { troubleOf } from "../../shelf/trouble";
import { describeMove, describeUnrelated, formatSection, namesOfBoth } from "../../text/desk-list";
import type { Statement } from "../../text/statement";
import { formatCount } from "../../text/words";
import { Pick, Tick } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { InView } from "../../ui/in-view";
import { Verdict } from "../../ui/verdict";
import { runWithWord } from "../act";
import { HandOver } from "../helper/hand-over";
import { readKept } from "../kept-setup";
import { setupName } from "../shown-names";
import { WhoTicked, wordsOn } from "../ticked";
import { stamp } from "../who";
import { WhoField } from "../who-field";
import { DeskOut } from "./desk-out";
import { DeskHelp } from "./help";
import { kinship, lastPlan, listedMoves, standing, start, startFrom, ticked } from "./session";

const verdict = (): Statement => {
  const all = listedMoves.value.length;
  const left = listedMoves.value.filter((move) => !ticked.value(move)).length;
  const apart = kinship.value;
  const more = apart?.isUnrelated ? describeUnrelated(apart) : "";
  if (all === 0) return { tone: "fine", says: "Nothing to set at the desk", more };
  return left === 0
    ? { tone: "fine", says: `Everything is set: ${formatCount(all, "control")}`, more }
    : { tone: "care", says: `${left} of ${formatCount(all, "control")} to set`, more };
};

const LAST = "change";
const NOTHING = "ticks";

/** What the desk stands at: chosen from the setups of the shelf. */
const Start = () => {
  const trouble = useSignal("");
  const from = start.value;
  const others = shelf.list.value.filter((l) => l.id !== shelf.openId.value);
  const chosen = useSignal("");
  const choose = async (key: string): Promise<void> => {
    trouble.value = "";
    chosen.value = key;
    if (key === LAST || key === NOTHING) startFrom(key);
    else
      await readKept(key).then(
        (file) => startFrom({ name: setupName(file), file }),
        (error: unknown) => {
          trouble.value = troubleOf(error);
        },
      );
  };
  return (
    <>
      <Pick
        label="List"
        value={typeof from === "string" ? from : chosen.value}
        options={[
          [NOTHING, "Every control"],
          ...(lastPlan.value ? [[LAST, "Only the last change of the plan"] as const] : []),
          ...others.map((l) => [l.id, `Only what differs from ${quoted(setupName(l))}`] as const),
        ]}
        onValue={(key) => void choose(key)}
      />
      {trouble.value ? <p class="notice bad">Not compared: {trouble.value}.</p> : null}
    </>
  );
};

/** The controls that are set in one place. */
const Moves = ({ moves }: { moves: readonly DeskMove[] }) => {
  const names = namesOfBoth(standing.value, current.value);
  const lines = moves.map((move) => ({ move, ...describeMove(names, move) }));
  return (
    <ul class="desk-list">
      {lines.map(({ move, where, control, value }, at) => {
        const isFirst = lines[at - 1]?.where !== where;
        return (
          <li key={`${where} ${control} ${move.bus}`} class={isFirst ? "first" : ""}>
            <Tick
              label={
                <>
                  <b class={isFirst ? "" : "hidden-visually"}>{where}</b> {control}: <b>{value}</b>
                </>
              }
              value={ticked.value(move) !== null}
              onValue={(on) => run(tickMove(move, on, stamp()))}
            />
            <WhoTicked words={wordsOn.value({ ...move, value: controlValue(move.to) })} />
          </li>
        );
      })}
    </ul>
  );
};

/** So many controls are drawn at once without holding up the page. A design choice. */
const AT_ONCE = 300;
/** What one takes at least, px. */
const LINE = 44;

const List = ({ hide }: { hide: boolean }) => {
  const shown = listedMoves.value.filter((move) => !hide || !ticked.value(move));
  let before = 0;
  return (
    <>
      {deskParts(standing.value, current.value, shown).map(({ section, moves }) => {
        before += moves.length;
        return (
          <section class="stack" key={formatSection(section)}>
            <h2>{formatSection(section)}</h2>
            <InView height={LINE * moves.length} now={before <= AT_ONCE}>
              {() => <Moves moves={moves} />}
            </InView>
          </section>
        );
      })}
    </>
  );
};

const Ticks = () => {
  const hide = useSignal(false);
  if (kinship.value?.isUnrelated) return null;
  return (
    <>
      {listedMoves.value.length > 0 ? (
        <Tick
          label="Hide what is set"
          value={hide.value}
          onValue={(on) => {
            hide.value = on;
          }}
        />
      ) : null}
      <List hide={hide.value} />
    </>
  );
};

const Head = () => {
  const { tone, says, more } = verdict();
  return (
    <Verdict tone={tone} says={says}>
      {more}
    </Verdict>
  );
};

/** The desk list with nothing to choose, for a helper. */
export const DeskTicks = () => (
  <>
    <Head />
    <Ticks />
  </>
);

/** The place for what to set at the desk: every control of the plan or only what differs, with ticks that last. */
export const DeskScreen = () => (
  <>
    <Head />
    <p>
      <a href="#patch">Back to Patch</a>
    </p>
    <Start />
    <Ticks />
    <Fold title="Paper, names, ticks">
      {() => (
        <>
          <DeskOut />
          <WhoField />
          {current.value.deskTicks ? (
            <button type="button" onClick={() => runWithWord(clearDeskTicks(stamp()), "All ticks cleared")}>
              Clear all ticks
            </button>
          ) : null}
        </>
      )}
    </Fold>
    <Fold title="Hand over to a helper’s phone">{() => <HandOver />}</Fold>
    <Explain about="What is listed, and in which order">
      <DeskHelp />
    </Explain>
  </>
);
