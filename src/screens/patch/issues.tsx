import { applyEdits, type Issue, type IssueCode, type Severity } from "../../core/inputs/issue";
import { replaceSetup } from "../../document/commands/apply";
import { current } from "../../document/store";
import { describeIssue, SEVERITY_NAMES } from "../../text/issues";
import { runPlanChange } from "../act";

/** Issues that are there because nobody has decided yet what goes where. */
const UNDECIDED: readonly IssueCode[] = ["unfed channel", "nothing fed", "too many"];

const CLASS: { readonly [severity in Severity]: string } = { fault: "bad", warn: "warn", note: "" };

/** What is wrong or doubtful in the patch, each with what to do. */
export const Issues = ({ issues }: { issues: readonly Issue[] }) => {
  return (
    <section class="stack" aria-labelledby="issues">
      <h2 id="issues">Issues</h2>
      <ul class="stack">
        {issues.map((issue) => {
          const { fix } = issue;
          const { says, remedy } = describeIssue(current.value, issue);
          return (
            <li class={`notice ${CLASS[issue.severity]}`} key={`${issue.code} ${says}`}>
              <p>
                <b>{SEVERITY_NAMES[issue.severity]}:</b> {says}
              </p>
              <p class="soft small">{remedy}</p>
              {UNDECIDED.includes(issue.code) ? (
                <p>
                  <a href="#decide">Decide what goes where</a>
                </p>
              ) : null}
              {fix ? (
                <button
                  type="button"
                  onClick={() =>
                    runPlanChange(
                      replaceSetup("fix", (s) => applyEdits(s, fix)),
                      `Plan changed. Now to do: ${remedy}`,
                    )
                  }
                >
                  Fix
                </button>
              ) : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
};
