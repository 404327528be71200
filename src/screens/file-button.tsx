import { useRef } from "preact/hooks";

/** A button that asks for files of this device. */
export const FileButton = (props: {
  label: string;
  /** What the browser offers first, as in the attribute of its name. */
  accept: string;
  several?: boolean;
  main?: boolean;
  onFiles: (files: readonly File[]) => void;
}) => {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class={props.main ? "main" : ""} onClick={() => input.current?.click()}>
        {props.label}
      </button>
      <input
        ref={input}
        type="file"
        hidden
        aria-label={props.label}
        accept={props.accept}
        multiple={props.several}
        onChange={(e) => {
          const files = [...(e.currentTarget.files ?? [])];
          // The same file may be chosen again once it was changed.
          e.currentTarget.value = "";
          if (files.length > 0) props.onFiles(files);
        }}
      />
    </>
  );
};
