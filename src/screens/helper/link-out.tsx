import { useSignal } from "@preact/signals";
import { useLayoutEffect } from "preact/hooks";
import { toLink } from "../../shelf/link";
import { shareLink } from "../../shelf/share";
import { reasonOf } from "../../text/words";
import { ownAddress, SHARED_WORDS } from "../shared-words";
import { Codes } from "./codes";

/**
 * Something that goes to another phone as a link or as codes.
 * @param thing the same object for as long as it is the same
 * @param name what it is, as the other phone’s share sheet shows it
 */
export const LinkOut = ({ thing, name }: { thing: object; name: string }) => {
  const link = useSignal("");
  const word = useSignal("");
  useLayoutEffect(() => {
    let isStale = false;
    link.value = "";
    word.value = "";
    toLink(thing, ownAddress()).then(
      (made) => {
        if (!isStale) link.value = made;
      },
      (error: unknown) => {
        if (!isStale) word.value = `No link: ${reasonOf(error)}.`;
      },
    );
    return () => {
      isStale = true;
    };
  }, [thing, link, word]);
  const share = async (): Promise<void> => {
    word.value = SHARED_WORDS[await shareLink(name, link.value)];
  };
  return (
    <>
      <div class="row">
        <button type="button" class="main" disabled={link.value === ""} onClick={() => void share()}>
          Share the link
        </button>
        {link.value === "" ? null : <Codes link={link.value} name={name} />}
      </div>
      <p role="status">{word.value}</p>
      {link.value === "" ? null : (
        <label class="field">
          <span class="label">The link, {link.value.length.toLocaleString("en-GB")} characters</span>
          <textarea readOnly rows={2} value={link.value} onFocus={(e) => e.currentTarget.select()} />
        </label>
      )}
    </>
  );
};
