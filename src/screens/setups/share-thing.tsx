import "./setups.css";
import { useSignal } from "@preact/signals";
import { useLayoutEffect } from "preact/hooks";
import type { DeskFile } from "../../document/desk-file";
import type { SetupFile } from "../../document/schema";
import type { ExportedFile } from "../../shelf/file";
import { toLink } from "../../shelf/link";
import { type QrCode, qrOf } from "../../shelf/qr";
import { type Shared, shareFile, shareLink } from "../../shelf/share";
import { reasonOf } from "../../text/words";
import { asFile } from "../as-file";
import { QrPicture } from "../qr-picture";
import { ownAddress, SHARED_WORDS } from "../shared-words";

const Code = ({ code, name }: { code: QrCode; name: string }) => {
  if (!code.ok) return <p class="soft">No QR code: {code.why}</p>;
  return (
    <figure class="stack">
      <QrPicture modules={code.modules} title={`QR code of the link to “${name}”`} />
      <figcaption class="soft small">
        Point the other phone’s camera at it.
        {code.dense ? " The code is dense: turn up the brightness, hold still and close." : ""}
      </figcaption>
    </figure>
  );
};

interface Made {
  readonly link: string;
  readonly code: QrCode;
}

/** Makes the link and its code. Rejects where the browser cannot, or it is too large for a link. */
const make = async (file: SetupFile | DeskFile): Promise<Made> => {
  if (!("CompressionStream" in globalThis)) throw new Error("this browser is too old for links");
  const link = await toLink(file, ownAddress());
  return { link, code: await qrOf(link) };
};

/**
 * A setup or a desk as a link, a code and a file; everything stays on this device until it is shared.
 * @param what it is, in a sentence
 */
export const ShareThing = (props: {
  what: "setup" | "desk";
  name: string;
  /** The same object for as long as it is the same. */
  file: SetupFile | DeskFile;
  exported: () => ExportedFile;
}) => {
  const { what, name, file } = props;
  const made = useSignal<Made | null>(null);
  const word = useSignal("");
  useLayoutEffect(() => {
    let isStale = false;
    // Before the next frame: a link or a word about what it was is never shown.
    made.value = null;
    word.value = "";
    make(file).then(
      (next) => {
        if (!isStale) made.value = next;
      },
      (error: unknown) => {
        if (isStale) return;
        word.value = `No link: ${reasonOf(error)}. Share the file instead.`;
      },
    );
    return () => {
      isStale = true;
    };
  }, [file, made, word]);
  const hand = async (shared: Promise<Shared>): Promise<void> => {
    word.value = SHARED_WORDS[await shared];
  };
  const link = made.value?.link;
  return (
    <div class="stack">
      <p class="soft small">
        The whole {what} is in the link, after the #, which browsers never send to a server. Anyone with the
        link has the {what}.
      </p>
      <div class="row">
        <button
          type="button"
          class="main"
          disabled={!link}
          onClick={() => link && hand(shareLink(name, link))}
        >
          Share the link
        </button>
        <button type="button" onClick={() => hand(shareFile(asFile(props.exported())))}>
          Share or download the file
        </button>
      </div>
      <p role="status">{word.value}</p>
      {made.value ? <Code code={made.value.code} name={name} /> : null}
      {link ? (
        <label class="field">
          <span class="label">The link, {link.length.toLocaleString("en-GB")} characters</span>
          <textarea readOnly rows={2} value={link} onFocus={(e) => e.currentTarget.select()} />
        </label>
      ) : null}
    </div>
  );
};
