import type { PieceKind, Source, SourceKind } from "../../core/setup";
import { duplicateSource, editSource, moveSource, removeSource } from "../../document/commands/sources";
import { current, run } from "../../document/store";
import { Pick, Tick } from "../../pieces/choice";
import { Icon } from "../../pieces/icon";
import { NumberField } from "../../pieces/number-field";
import { TextField } from "../../pieces/text-field";
import { done, runWithWord, typing } from "../act";
import { PanEntry } from "../pan-entry";
import { RULES } from "../rules";
import { SendFields } from "./send-fields";

const KINDS: readonly (readonly [SourceKind, string])[] = [
  ["drum", "Drum or percussion"],
  ["voice", "Voice"],
  ["bass", "Bass"],
  ["guitar", "Guitar"],
  ["keys", "Keys"],
  ["horn", "Horn"],
  ["playback", "Playback"],
  ["talk", "Talk-back"],
  ["other", "Other"],
];

/** Names of the kinds of piece, for lists. */
export const PIECE_KINDS: { readonly [kind in PieceKind]: string } = {
  kick: "Kick",
  snare: "Snare",
  hat: "Hat",
  tom: "Tom",
  floor: "Floor tom",
  ride: "Ride",
  crash: "Crash",
  percussion: "Percussion",
  overhead: "Overhead",
  other: "Other",
};

const Level = ({ source }: { source: Source }) => (
  <>
    <NumberField
      rule={RULES.level}
      label="Level while playing"
      value={source.level}
      step={1}
      onValue={(level) => typing(editSource(source.id, { level }))}
      onEmpty={() => typing(editSource(source.id, { level: null }))}
      onDone={done}
    />
    <NumberField
      rule={RULES.peak}
      value={source.peak}
      step={1}
      onValue={(peak) => typing(editSource(source.id, { peak }))}
      onEmpty={() => typing(editSource(source.id, { peak: null }))}
      onDone={done}
    />
  </>
);

const Moves = ({ source, first, last }: { source: Source; first: boolean; last: boolean }) => {
  const name = source.name || "Unnamed source";
  return (
    <div class="row">
      <button
        type="button"
        disabled={first}
        aria-label={`Move ${name} up`}
        onClick={() => run(moveSource(source.id, -1))}
      >
        <Icon name="up" />
      </button>
      <button
        type="button"
        disabled={last}
        aria-label={`Move ${name} down`}
        onClick={() => run(moveSource(source.id, 1))}
      >
        <Icon name="down" />
      </button>
      <button type="button" onClick={() => run(duplicateSource(source.id))}>
        Duplicate
      </button>
      <button type="button" onClick={() => runWithWord(removeSource(source.id), `${name} deleted`)}>
        Delete
      </button>
    </div>
  );
};

/** All of a source that is not seen in its row. */
export const SourceDetails = ({ source, first, last }: { source: Source; first: boolean; last: boolean }) => {
  const { kit } = current.value;
  const edit = (patch: Partial<Omit<Source, "id">>) => run(editSource(source.id, patch));
  const pieces = kit.pieces.map((p) => [p.id, p.name || PIECE_KINDS[p.kind]] as const);
  return (
    <div class="stack">
      <div class="fields">
        <TextField
          label="Name"
          value={source.name}
          onValue={(name) => typing(editSource(source.id, { name }))}
          onDone={done}
        />
        <PanEntry
          label="House pan"
          value={source.pan}
          onValue={(pan) => typing(editSource(source.id, { pan }))}
          onDone={done}
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
      <Tick label="Polarity switched" value={source.inverted} onValue={(inverted) => edit({ inverted })} />
      <Tick
        label="Must keep its sides (stereo playback, keys)"
        value={source.keepSides}
        onValue={(keepSides) => edit({ keepSides })}
      />
      <Moves source={source} first={first} last={last} />
    </div>
  );
};
