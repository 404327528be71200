import { applyEdits, type PatchIssue, type Severity } from "../../core/inputs/issue";
import { replaceSetup } from "../../document/commands/apply";
import { runWithWord } from "../act";

const CLASS: { readonly [severity in Severity]: string } = { fault: "bad", warn: "warn", note: "" };
const WORD: { readonly [severity in Severity]: string } = { fault: "Fault", warn: "Look here", note: "Note" };

/** What is wrong or doubtful in the patch, each with what to do. */
export const Flags = ({ flags }: { flags: readonly PatchIssue[] }) => {
  return (
    <section class="stack" aria-labelledby="flags">
      <h2 id="flags">To look at</h2>
      <ul class="stack">
        {flags.map((flag) => {
          const { fix } = flag;
          return (
            <li class={`notice ${CLASS[flag.severity]}`} key={`${flag.code} ${flag.says}`}>
              <p>
                <b>{WORD[flag.severity]}:</b> {flag.says}
              </p>
              <p class="soft small">{flag.remedy}</p>
              {fix ? (
                <button
                  type="button"
                  onClick={() =>
                    runWithWord(
                      replaceSetup("put right", (s) => applyEdits(s, fix)),
                      "Put right",
                    )
                  }
                >
                  Mend it
                </button>
              ) : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
};
