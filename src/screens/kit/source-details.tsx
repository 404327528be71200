import { nameOf } from "../../core/called";
import { pieceCalled, SOURCE_KINDS } from "../../core/kinds";
import type { Id, Source, SourceKind } from "../../core/setup";
import { duplicateSource, editSource, moveSource, removeSource } from "../../document/commands/sources";
import { LIMITS } from "../../document/limits";
import { current, endDrag, run } from "../../document/store";
import { Pick, Tick } from "../../pieces/choice";
import { Icon } from "../../pieces/icon";
import { NumberField } from "../../pieces/number-field";
import { TextField } from "../../pieces/text-field";
import { runOrSay, runWithWord, typing } from "../act";
import { full } from "../names";
import { PanEntry } from "../pan-entry";
import { RULES } from "../rules";
import { SendFields } from "./send-fields";

const KINDS = Object.entries(SOURCE_KINDS) as [SourceKind, string][];

const Level = ({ source }: { source: Source }) => (
  <>
    <NumberField
      rule={RULES.level}
      label="Level while playing"
      value={source.level}
      step={1}
      onValue={(level) => typing(editSource(source.id, { level }))}
      onEmpty={() => typing(editSource(source.id, { level: null }))}
      onDone={endDrag}
    />
    <NumberField
      rule={RULES.peak}
      value={source.peak}
      step={1}
      onValue={(peak) => typing(editSource(source.id, { peak }))}
      onEmpty={() => typing(editSource(source.id, { peak: null }))}
      onDone={endDrag}
    />
  </>
);

/** The sources next to this one in the list as it is shown. */
export interface Neighbours {
  readonly before: Id | undefined;
  readonly after: Id | undefined;
}

const Moves = ({ source, before, after }: { source: Source } & Neighbours) => {
  const name = nameOf(source, "source");
  const move = (past: Id | undefined, way: "up" | "down") => (
    <button
      type="button"
      disabled={past === undefined}
      aria-label={`Move ${name} ${way}`}
      onClick={() => past !== undefined && run(moveSource(source.id, past))}
    >
      <Icon name={way} />
    </button>
  );
  return (
    <div class="row">
      {move(before, "up")}
      {move(after, "down")}
      <button type="button" onClick={() => runOrSay(duplicateSource(source.id), full("sources"))}>
        Duplicate
      </button>
      <button type="button" onClick={() => runWithWord(removeSource(source.id), `${name} deleted`)}>
        Delete
      </button>
    </div>
  );
};

/** All of a source that is not seen in its row. */
export const SourceDetails = ({ source, ...neighbours }: { source: Source } & Neighbours) => {
  const { kit } = current.value;
  const edit = (patch: Partial<Omit<Source, "id">>) => run(editSource(source.id, patch));
  const pieces = kit.pieces.map((p) => [p.id, pieceCalled(p)] as const);
  return (
    <div class="stack">
      <div class="fields">
        <TextField
          label="Name"
          most={LIMITS.name}
          value={source.name}
          onValue={(name) => typing(editSource(source.id, { name }))}
          onDone={endDrag}
        />
        <PanEntry
          label="House pan"
          value={source.pan}
          onValue={(pan) => typing(editSource(source.id, { pan }))}
          onDone={endDrag}
        />
        <Level source={source} />
        <SendFields source={source} />
        <Pick label="What it is" value={source.kind} options={KINDS} onValue={(kind) => edit({ kind })} />
        <Pick
          label="Stands at"
          value={source.piece ?? ""}
          options={[["", "no place at the kit"], ...pieces]}
          onValue={(piece) => edit({ piece: piece === "" ? null : piece })}
        />
        <Pick
          label="Channels"
          value={source.channels === 1 ? "1" : "2"}
          options={[
            ["1", "One"],
            ["2", "Two (stereo)"],
          ]}
          onValue={(n) => edit({ channels: n === "1" ? 1 : 2 })}
        />
      </div>
      <Tick label="Polarity inverted" value={source.inverted} onValue={(inverted) => edit({ inverted })} />
      <Tick
        label="Must keep its sides (stereo playback, keys)"
        value={source.keepSides}
        onValue={(keepSides) => edit({ keepSides })}
      />
      <Moves source={source} {...neighbours} />
    </div>
  );
};
