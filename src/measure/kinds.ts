/** Endings of WAV files, which are read here. */
const WAV = [".wav", ".wave", ".bwf", ".rf64", ".bw64"];

/**
 * Sound files by media type, with their endings: what is offered when files are chosen, what the platform may hand to
 * the app, and what is led to the recordings. The manifest lists the same. What is no WAV is decoded by the browser
 * where it can.
 */
export const SOUND_FILES: { readonly [type: string]: readonly string[] } = {
  "audio/wav": WAV,
  "audio/flac": [".flac"],
  "audio/mpeg": [".mp3"],
  "audio/mp4": [".m4a"],
  "audio/aac": [".aac"],
  "audio/ogg": [".ogg", ".oga", ".opus"],
  "audio/aiff": [".aif", ".aiff"],
  "audio/x-caf": [".caf"],
};

/** All that may be chosen, as a file field takes it. */
export const ACCEPTED: readonly string[] = [...Object.values(SOUND_FILES).flat(), "audio/*"];

const endsIn = (name: string, endings: readonly string[]): boolean =>
  endings.some((ending) => name.toLowerCase().endsWith(ending));

/** Whether a file's name says that it is a WAV file. */
export const isNamedWav = (name: string): boolean => endsIn(name, WAV);

/** Whether a file is sound, by its media type or by its name. */
export const isSound = ({ name, type }: Pick<File, "name" | "type">): boolean =>
  type.startsWith("audio/") || endsIn(name, Object.values(SOUND_FILES).flat());
