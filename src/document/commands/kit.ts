import { nextId, uniqueName } from "../../core/model/ids";
import type { Hand, Id, Piece, PieceKind } from "../../core/model/setup";
import type { Degrees, Metres } from "../../core/model/units";
import { alike, amend, amendIn, kept, mapped } from "../amend";
import { type Command, during, type EditCommand, edit, fieldsOf, step } from "../command";
import { LIMITS } from "../limits";
import { mend } from "../mend";
import { forHand, limbsOf, placeFor } from "../places";
import type { SetupFile } from "../schema";

const withPieces = (file: SetupFile, pieces: readonly Piece[]): SetupFile =>
  amend(file, { kit: amend(file.kit, { pieces }) });

/** A new piece at a typical place for its kind. Nothing happens beyond `LIMITS.pieces`. */
export const addPiece = (kind: PieceKind = "other", name = "Piece"): Command =>
  step("add piece", (file) => {
    const { pieces, hand } = file.kit;
    if (pieces.length >= LIMITS.pieces) return file;
    const piece: Piece = {
      id: nextId("p", pieces),
      name: uniqueName(name, pieces),
      kind,
      ...placeFor(kind, hand, pieces),
      limbs: limbsOf(kind),
      player: "drummer",
    };
    return withPieces(file, [...pieces, piece]);
  });

/** Another kind is sounded as that kind is, unless the piece was sounded in a way of its own. */
const withLimbs = ({ kind, limbs }: Piece, patch: Partial<Piece>): Partial<Piece> =>
  patch.kind && alike(limbs, limbsOf(kind)) ? { limbs: limbsOf(patch.kind), ...patch } : patch;

/** Changes what is said of a piece; what sounds it goes with a new kind. */
export const editPiece = (id: Id, patch: Partial<Omit<Piece, "id">>): EditCommand =>
  edit("change piece", `piece ${id} ${fieldsOf(patch)}`, (file) =>
    withPieces(
      file,
      mapped(file.kit.pieces, (piece) => (piece.id === id ? amend(piece, withLimbs(piece, patch)) : piece)),
    ),
  );

/** One move of a piece under the finger: metres to the drummer's right and front. */
export const movePiece = (id: Id, x: Metres, y: Metres): Command =>
  during(
    edit("move piece", `piece ${id} x+y`, (file) => withPieces(file, amendIn(file.kit.pieces, id, { x, y }))),
  );

/** Takes a piece away; its microphones stay and stand at none, its hits leave the check. */
export const removePiece = (id: Id): Command =>
  step("remove piece", (file) =>
    mend(
      withPieces(
        file,
        kept(file.kit.pieces, (piece) => piece.id !== id),
      ),
    ),
  );

/** Sets the kit up for another hand: what stands on the other side then is mirrored. Pans stay as they are. */
export const setHand = (hand: Hand): Command =>
  step("change handedness", (file) => {
    const pieces = mapped(file.kit.pieces, (piece) => forHand(piece, file.kit.hand, hand));
    return amend(file, { kit: amend(file.kit, { hand, pieces }) });
  });

/** Turns the throne: degrees, positive to the drummer's own left. */
export const setYaw = (yaw: Degrees): EditCommand =>
  edit("turn throne", "throne yaw", (file) => amend(file, { kit: amend(file.kit, { yaw }) }));
