import { kitPieceName } from "../../core/model/kinds";
import type { Piece, PieceKind } from "../../core/model/setup";
import { offStage, onStage } from "../../core/stereo/geometry";
import { movePiece } from "../../document/commands/kit";
import { current, endVisit, run } from "../../document/store";
import { type Mark, PlanView } from "../../ui/plan";
import { across, inFront } from "../where";
import { allowed } from "./allowed";

/** Half a drum's or a cymbal's usual width, metres: only for the drawing. */
const SIZE: { readonly [kind in PieceKind]: number } = {
  kick: 0.24,
  snare: 0.17,
  hat: 0.17,
  tom: 0.14,
  floor: 0.2,
  ride: 0.24,
  crash: 0.2,
  percussion: 0.14,
  overhead: 0.07,
  other: 0.14,
};
const METAL: readonly PieceKind[] = ["hat", "ride", "crash"];

const lookOf = (piece: Piece): Mark["look"] =>
  piece.kind === "overhead" ? "mic" : METAL.includes(piece.kind) ? "metal" : "drum";

/**
 * The kit from above. The drummer's view has the throne below and the kit's front up;
 * FOH's view is the stage as the audience has it before them, the audience below.
 */
export const KitPlan = ({ view }: { view: "drummer" | "house" }) => {
  const { kit } = current.value;
  const foh = view === "house";
  const drawn = (at: { x: number; y: number }) => {
    if (!foh) return at;
    const spot = onStage(kit, at);
    return { x: spot.x, y: -spot.y };
  };
  const back = (x: number, y: number) => (foh ? offStage(kit, { x, y: -y }) : { x, y });
  const throne: Mark = {
    id: "throne",
    name: "throne",
    ...drawn({ x: 0, y: 0 }),
    size: 0.16,
    fixed: true,
    look: "throne",
    facing: foh ? 180 + kit.yaw : 0,
    says: "The throne",
  };
  const marks = kit.pieces.map((piece): Mark => {
    const name = kitPieceName(piece);
    return {
      id: piece.id,
      name,
      ...drawn(piece),
      size: SIZE[piece.kind],
      look: lookOf(piece),
      says: `${name}: ${across(piece.x)}, ${inFront(piece.y)}`,
    };
  });
  return (
    <PlanView
      label={foh ? "The kit from above, as FOH sees it" : "The kit from above, as the drummer sees it"}
      marks={[throne, ...marks]}
      reach={1.1}
      middle={foh ? [0, -0.35] : [0, 0.35]}
      step={0.05}
      onMove={(id, x, y) => {
        const at = back(x, y);
        if (allowed(at.x, at.y)) run(movePiece(id, at.x, at.y));
      }}
      onDone={endVisit}
    >
      <text x="8" y="20" class="plan-word">
        {foh ? "house left" : "drummer’s left"}
      </text>
      <text x="332" y="20" text-anchor="end" class="plan-word">
        {foh ? "house right" : "drummer’s right"}
      </text>
      {foh ? (
        <text x="170" y="332" text-anchor="middle" class="plan-word">
          audience
        </text>
      ) : null}
    </PlanView>
  );
};
