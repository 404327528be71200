import { useSignal } from "@preact/signals";
import { kitPieceName, PIECE_KINDS } from "../../core/model/kinds";
import type { Piece, PieceKind } from "../../core/model/setup";
import { addPiece, editPiece, removePiece } from "../../document/commands/kit";
import { LIMITS } from "../../document/limits";
import { current, endVisit, run } from "../../document/store";
import { Pick } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { NumberField } from "../../ui/number-field";
import { TextField } from "../../ui/text-field";
import { runOrSay, runWithWord, typing } from "../act";
import { RULES } from "../rules";
import { full } from "../shown-names";
import { across, inFront } from "../where";

const KINDS = Object.entries(PIECE_KINDS) as [PieceKind, string][];

const PieceFields = ({ piece }: { piece: Piece }) => {
  const name = kitPieceName(piece);
  const open = useSignal(false);
  return (
    <details
      onToggle={(e) => {
        open.value = e.currentTarget.open;
      }}
    >
      <summary>
        {name}
        <span class="soft small">
          {across(piece.x)}, {inFront(piece.y)}
        </span>
      </summary>
      {open.value ? (
        <div class="fields">
          <TextField
            label="Name"
            most={LIMITS.name}
            value={piece.name}
            onValue={(v) => typing(editPiece(piece.id, { name: v }))}
            onDone={endVisit}
          />
          <Pick
            label="Kind"
            value={piece.kind}
            options={KINDS}
            onValue={(kind) => run(editPiece(piece.id, { kind }))}
          />
          <NumberField
            rule={RULES.metres}
            label="Right of the throne"
            value={piece.x}
            step={0.05}
            onValue={(x) => typing(editPiece(piece.id, { x }))}
            onDone={endVisit}
          />
          <NumberField
            rule={RULES.metres}
            label="In front of the throne"
            value={piece.y}
            step={0.05}
            onValue={(y) => typing(editPiece(piece.id, { y }))}
            onDone={endVisit}
          />
          <TextField
            label="Played by"
            most={LIMITS.name}
            value={piece.player}
            onValue={(player) => typing(editPiece(piece.id, { player }))}
            onDone={endVisit}
          />
          <button type="button" onClick={() => runWithWord(removePiece(piece.id), `${name} removed`)}>
            Remove
          </button>
        </div>
      ) : null}
    </details>
  );
};

/** Every piece with its place in metres, for typing. */
export const PieceTable = () => (
  <Fold title="Pieces and their places, in metres">
    {() => (
      <>
        {current.value.kit.pieces.map((piece) => (
          <PieceFields key={piece.id} piece={piece} />
        ))}
        <button type="button" onClick={() => runOrSay(addPiece("other"), full("pieces"))}>
          Add a piece
        </button>
      </>
    )}
  </Fold>
);
