import { alike } from "./amend";
import { isFields } from "./reader";

/** Plain JSON, as a file has it. */
type Json = unknown;
type Fields = { readonly [key: string]: Json };

/** A pattern for each item of a list, where the pattern of the list is one object in a list. */
const itemOf = (pattern: Json): Fields | null =>
  Array.isArray(pattern) && pattern.length === 1 && isFields(pattern[0]) ? pattern[0] : null;

/** What comes after a value where things are counted: "s2" after "s1", [13, 14] after [11, 12]; else the value itself. */
const next = (value: Json): Json => {
  if (typeof value === "number") return value + 1;
  if (Array.isArray(value))
    return value.every((each) => typeof each === "number")
      ? value.map((each) => each + value.length)
      : value.map((each) => (typeof each === "string" ? next(each) : each));
  const [, letters, digits] = (typeof value === "string" && /^([a-z])(\d{1,6})$/.exec(value)) || [];
  return letters ? `${letters}${Number(digits) + 1}` : value;
};

/**
 * Values one after the other: one alone as it is; a run as how many there are (less than none where they count up) and
 * its first. A list alone is a run of one.
 */
const inRuns = (values: readonly Json[]): Json[] => {
  const runs: Json[] = [];
  for (let at = 0; at < values.length; ) {
    const first = values[at];
    const length = (step: (value: Json) => Json): number => {
      let [count, value] = [1, step(first)];
      while (at + count < values.length && alike(values[at + count], value)) {
        count += 1;
        value = step(value);
      }
      return count;
    };
    const [same, counted] = [length((value) => value), length(next)];
    const count = counted > same ? -counted : same;
    runs.push(count === 1 && !Array.isArray(first) ? first : [count, first]);
    at += Math.max(same, counted);
  }
  return runs;
};

/** The values of runs; never more than `most`. */
const ofRuns = (runs: Json, most: number): Json[] => {
  const values: Json[] = [];
  for (const run of Array.isArray(runs) ? runs : []) {
    const [count, first] = Array.isArray(run) ? run : [1, run];
    let value: Json = first;
    for (let left = Math.abs(Number(count)); left >= 1 && values.length < most; left -= 1) {
      values.push(value);
      if (Number(count) < 0) value = next(value);
    }
  }
  return values;
};

/** Items that a list of columns may have: more than any list of a setup. */
const MOST = 10_000;

/** The place of each field in a pattern and something of it, where there is something. */
const byPlace = (pattern: Fields, of: (key: string, usual: Json) => Json): Json[] =>
  Object.entries(pattern).flatMap(([key, usual], at) => {
    const value = of(key, usual);
    return value === undefined ? [] : [at, value];
  });

const isUsual = (value: Json, usual: Json): boolean => !itemOf(usual) && alike(value, usual);

const listInColumns = (list: readonly Json[], item: Fields): Json => [
  inRuns(list.map((each) => (isFields(each) ? 1 : 0))),
  ...byPlace(item, (key, usual) => {
    const column = list.filter(isFields).map((each) => each[key]);
    if (column.every((value) => isUsual(value, usual))) return undefined;
    return inRuns(column.map((value) => thinned(value, usual)));
  }),
];

/**
 * Something in short, by a pattern that both sides know: of an object the place of each field in the pattern and its
 * value, but none that is as the pattern has it; a list whose pattern is one object is written by columns, in runs.
 * Items of such a list are null, or objects with every field of the pattern.
 */
export const thinned = (value: Json, pattern: Json): Json => {
  const item = itemOf(pattern);
  if (item && Array.isArray(value)) return listInColumns(value, item);
  if (!isFields(value) || !isFields(pattern)) return value;
  return byPlace(pattern, (key, usual) =>
    value[key] === undefined || isUsual(value[key], usual) ? undefined : thinned(value[key], usual),
  );
};

/** By their places, what was written of the fields of a pattern. */
const given = (value: readonly Json[]): ReadonlyMap<Json, Json> => {
  const all = new Map<Json, Json>();
  for (let at = 0; at + 1 < value.length; at += 2) all.set(value[at], value[at + 1]);
  return all;
};

const withUsual = (pattern: Fields, of: (at: number, usual: Json) => Json): Fields =>
  Object.fromEntries(
    Object.entries(pattern).flatMap(([key, usual], at): [string, Json][] => {
      const value = of(at, usual);
      return value === undefined ? [] : [[key, value]];
    }),
  );

const listOfColumns = ([there, ...rest]: readonly Json[], item: Fields): Json[] => {
  const columns = given(rest);
  const all = ofRuns(there, MOST);
  const count = all.filter((is) => is === 1).length;
  const values = Object.entries(item).map(([, usual], at) =>
    columns.has(at) ? ofRuns(columns.get(at), count).map((value) => filled(value, usual)) : null,
  );
  let row = -1;
  return all.map((is) => {
    if (is !== 1) return null;
    row += 1;
    return withUsual(item, (at, usual) => {
      const column = values[at];
      return column ? column[row] : usual;
    });
  });
};

/** What was written in short, by the same pattern; what fits it nowhere stays as it is, for a reader to refuse. */
export const filled = (value: Json, pattern: Json): Json => {
  const item = itemOf(pattern);
  if (item) return Array.isArray(value) ? listOfColumns(value, item) : value;
  if (!isFields(pattern) || !Array.isArray(value)) return value;
  const fields = given(value);
  return withUsual(pattern, (at, usual) =>
    fields.has(at) ? filled(fields.get(at), usual) : itemOf(usual) ? undefined : usual,
  );
};
