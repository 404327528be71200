import "./codes.css";
import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import { inParts } from "../../shelf/link-parts";
import { SMALL_QR_BYTES, smallQrOf } from "../../shelf/qr";
import { useAwake } from "../check/awake";
import { QrPicture } from "../qr-picture";

type Modules = readonly (readonly boolean[])[];

const Pages = ({ codes, name, close }: { codes: readonly Modules[]; name: string; close: () => void }) => {
  useAwake();
  const at = useSignal(0);
  const dialog = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => dialog.current?.showModal(), []);
  const turn = (by: number): void => {
    at.value = (at.value + by + codes.length) % codes.length;
  };
  const which = codes.length === 1 ? "Code" : `Code ${at.value + 1} of ${codes.length}`;
  return (
    <dialog class="codes" ref={dialog} aria-label={`Codes of ${name}`} onClose={close}>
      <div>
        <h2 aria-live="polite">{which}</h2>
        <p class="small">
          {codes.length === 1
            ? "Point the other phone’s camera at it."
            : "Point the other phone’s camera at each of them, in any order."}
        </p>
      </div>
      <QrPicture modules={codes[at.value] ?? []} title={`QR ${which.toLowerCase()}: ${name}`} />
      <div class="row">
        {codes.length > 1 ? (
          <>
            <button type="button" onClick={() => turn(-1)}>
              Back
            </button>
            <button type="button" onClick={() => turn(1)}>
              Next code
            </button>
          </>
        ) : null}
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </div>
    </dialog>
  );
};

/** A button that shows a link as codes for another phone’s camera: as many as it takes for each to be read at arm’s length. */
export const Codes = ({ link, name }: { link: string; name: string }) => {
  const codes = useSignal<readonly Modules[] | null>(null);
  const parts = inParts(link, SMALL_QR_BYTES);
  if (parts.length === 0) return <p class="soft small">Too much for codes: share the link.</p>;
  const show = async (): Promise<void> => {
    codes.value = await Promise.all(parts.map(smallQrOf));
  };
  return (
    <>
      <button type="button" onClick={() => void show()}>
        {parts.length === 1 ? "Show the code" : `Show ${parts.length} codes`}
      </button>
      {codes.value ? (
        <Pages
          codes={codes.value}
          name={name}
          close={() => {
            codes.value = null;
          }}
        />
      ) : null}
    </>
  );
};
