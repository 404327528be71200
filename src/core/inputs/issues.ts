import type { Setup } from "../model/setup";
import { deskIssues } from "./desk-issues";
import { copyIssues, overIssues, silentIssues, tapIssues, twiceIssues } from "./input-issues";
import type { Issue, IssueAbout, IssueCode, Severity } from "./issue";
import { pairIssues } from "./pair-issues";
import { reachIssues } from "./reach-issues";

const ORDER: { readonly [severity in Severity]: number } = { fault: 0, warn: 1, note: 2 };

/** Issues that are told once for all that share them, with one fix. */
const SHARED: readonly IssueCode[] = ["off", "muted", "tap point", "empty bus", "no bus", "unfed listener"];

/** What issues must have in common to be one; a listener's bus is part of what is wrong. */
const keyOf = ({ code, severity, values, buses }: Issue): string =>
  JSON.stringify([code, severity, values, code === "unfed listener" ? buses : []]);

const union = <T>(a: readonly T[], b: readonly T[]): T[] => [...new Set([...a, ...b])];

const joined = (a: Issue, b: Issue): Issue => {
  const about: IssueAbout = {
    inputs: union(a.inputs, b.inputs).sort((i, j) => i - j),
    channels: union(a.channels, b.channels),
    buses: union(a.buses, b.buses),
    listeners: union(a.listeners, b.listeners),
  };
  return { ...a, ...about, ...(a.fix && b.fix ? { fix: [...a.fix, ...b.fix] } : {}) };
};

const grouped = (issues: readonly Issue[]): Issue[] => {
  const groups = new Map<string, Issue>();
  issues.forEach((issue, at) => {
    const key = SHARED.includes(issue.code) ? keyOf(issue) : String(at);
    const group = groups.get(key);
    groups.set(key, group ? joined(group, issue) : issue);
  });
  return [...groups.values()];
};

/** Everything that a check of the patch finds, what is shared told once: the worst first, then in the order of the inputs. */
export const patchIssues = (setup: Setup): Issue[] => {
  const first = ({ inputs }: Issue): number => inputs[0] ?? setup.monitor.inputs.length;
  return grouped([
    ...overIssues(setup),
    ...reachIssues(setup),
    ...pairIssues(setup),
    ...silentIssues(setup),
    ...copyIssues(setup),
    ...twiceIssues(setup),
    ...tapIssues(setup),
    ...deskIssues(setup),
  ]).sort((a, b) => ORDER[a.severity] - ORDER[b.severity] || first(a) - first(b));
};
