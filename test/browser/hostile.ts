import { readFileSync } from "node:fs";
import { join } from "node:path";
import { setupFields } from "../../src/document/fields";
import { LIMITS } from "../../src/document/limits";
import { readSetup } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";

/** Texts that harm where a text is taken for something else. Each may be a name; none may be more than that. */
export const CORPUS: readonly string[] = [
  `<img src=x onerror="document.title='taken';alert(1)">`,
  "<script>document.title='taken';alert(1)</script>",
  `"><svg onload=alert(1)><a href=javascript:alert(1)>`,
  "' onmouseover='alert(1)' autofocus onfocus='alert(1)' x='",
  "</option></select></textarea></title><h1>taken</h1>",
  "</style><style>*{display:none}</style><base href=//0.0.0.0>",
  "<!-- ]]> <![CDATA[ <?xml",
  "javascript:alert(1)",
  "data:text/html,<script>alert(1)</script>",
  "&lt;b&gt; &amp; &#60;i&#62;",
  "\u202Etfel ot thgir\u202C",
  "\u2067\u2066\u202D never closed",
  "a\u200Bb\u200C\u200Dc\u2060d\uFEFFe\u00ADf",
  "lone \uD800 and \uDC00 halves",
  "NUL \0 bell \u0007 \u001B[31m back\b del \u007F",
  "line\nreturn\r\ttab\u2028\u2029\u0085",
  "W".repeat(200),
  "👩‍👩‍👧‍👦🏳️‍🌈🥁".repeat(12),
  `Z${"\u0301\u0489\u0332".repeat(60)}`,
  "=1+cmd|' /C calc'!A0",
  "+1+1",
  "-2+3",
  "@SUM(1)",
  "__proto__",
  "constructor",
  "toString",
  `{{7*7}} \${7*7} #{7*7} <%=7*7%> {0} %s %00 %3Cb%3E`,
  "../../etc/passwd \\\\host\\share",
  "null",
];

/** All of them in one. */
export const EVERYTHING = CORPUS.join(" ");

/** Half of a pair: neither a file's name nor anything else in UTF-8 holds one. */
export const HALF = /\p{Surrogate}/u;

/** A text as the name of a file, or in an address. */
export const asName = (text: string): string => text.replace(/\p{Surrogate}/gu, "\uFFFD");

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

const isList = (value: Json): value is readonly Json[] => Array.isArray(value);
const isFields = (value: Json): value is { readonly [key: string]: Json } =>
  typeof value === "object" && value !== null && !isList(value);

/** A value with every text in it replaced; `kind` is the path with [] for any place in a list. */
const mapTexts = (
  value: Json,
  change: (text: string, kind: string, at: number) => string,
  kind = "",
  at = 0,
): Json => {
  if (typeof value === "string") return change(value, kind, at);
  if (isList(value)) return value.map((item, index) => mapTexts(item, change, `${kind}[]`, index));
  if (!isFields(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [key, mapTexts(inner, change, `${kind}.${key}`, at)]),
  );
};

/** Every kind of text field that takes any text whatever, found by trying it on the reader of setup files. */
const freeKinds = (setup: SetupFile): ReadonlySet<string> => {
  const kinds = new Set<string>();
  mapTexts(setup as unknown as Json, (text, kind) => {
    kinds.add(kind);
    return text;
  });
  const takesAny = (wanted: string): boolean => {
    const tried = mapTexts(setup as unknown as Json, (text, kind) => (kind === wanted ? "any text" : text));
    let kept = true;
    mapTexts(setupFields(tried, "", () => {}) as unknown as Json, (text, kind) => {
      if (kind === wanted && text !== "any text") kept = false;
      return text;
    });
    return kept;
  };
  return new Set([...kinds].filter(takesAny));
};

interface Named {
  readonly id: string;
}

/** A list as long as the corpus, so that each of its texts gets a turn in every field. */
const grown = <T extends Named>(list: readonly T[], copy: (item: T, id: string) => T): T[] =>
  Array.from({ length: Math.max(list.length, CORPUS.length) }, (_, at) => {
    const item = list[at % list.length];
    if (!item) throw new Error("nothing to copy");
    return at < list.length ? item : copy(item, `${item.id}-${at}`);
  });

/** A text as an id: whole where it fits, else its beginning and its place, which keep it apart from the others. */
export const asId = (text: string, at: number): string => {
  const end = ` ${at}`;
  if (at < CORPUS.length && text.length <= LIMITS.id) return text;
  let cut = "";
  for (const letter of text) {
    if (cut.length + letter.length + end.length > LIMITS.id) break;
    cut += letter;
  }
  return cut + end;
};

const corpusAt = (at: number): string => CORPUS[at % CORPUS.length] ?? "";

/** A setup in which every field is filled, each list is as long as the corpus, and everything is in an input. */
const fullSetup = (): SetupFile => {
  const fixture = readFileSync(join(import.meta.dirname, "../fixtures/setup-v1.json"), "utf8");
  const read = readSetup(JSON.parse(fixture));
  if (!read.ok) throw new Error(read.why.code);
  const { file } = read;
  if (!file.earphone || !file.recording || !file.check) throw new Error("the fixture lacks a part");
  const channels = grown(file.channels, (item, id) => ({ ...item, id }));
  return {
    ...file,
    example: false,
    channels,
    kit: { ...file.kit, pieces: grown(file.kit.pieces, (item, id) => ({ ...item, id })) },
    buses: grown(file.buses, (item, id) => ({ ...item, id })),
    listeners: grown(file.listeners, (item, id) => ({ ...item, id, kind: "performer" })),
    monitor: {
      ...file.monitor,
      inputCount: 64,
      inputs: [
        ...file.monitor.inputs.filter((input) => input?.feed.kind === "bus"),
        ...channels.map(({ id }) => ({
          feed: { kind: "channel", channel: id, side: "both", tap: "pre-fader" } as const,
          port: null,
          on: true,
          trim: 0,
        })),
      ],
    },
  };
};

/** A setup with hostile texts in every field that takes any text, ids among them; every reference holds. */
export const hostileSetup = (): SetupFile => {
  const full = fullSetup();
  const kinds = freeKinds(full);
  const lists: readonly (readonly Named[])[] = [full.kit.pieces, full.channels, full.buses, full.listeners];
  const newIds = new Map(
    lists.flatMap((list) => list.map(({ id }, at) => [id, asId(corpusAt(at), at)] as const)),
  );
  const everything = CORPUS.join(" ");
  const changed = mapTexts(full as unknown as Json, (text, kind, at) => {
    if (!kinds.has(kind)) return text;
    return newIds.get(text) ?? (kind.includes("[]") ? corpusAt(at) : everything);
  });
  const read = readSetup(changed);
  if (!read.ok) throw new Error(read.why.code);
  return read.file;
};

const POLLUTION = '"__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}}';
/** Stands for a brace inside a text while braces of objects are looked for. */
const BRACE = "\uE000";

/** The text of a value with keys in every object that would reach a prototype if they were taken over. */
export const polluted = (value: unknown): string => {
  const json = JSON.stringify(mapTexts(value as Json, (text) => text.replaceAll("{", BRACE)));
  return json.replaceAll("{", `{${POLLUTION},`).replaceAll(",}", "}").replaceAll(BRACE, "\\u007b");
};
