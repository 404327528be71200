import type { TraceLink } from "../../core/inputs/trace-links";
import { addLook, endTrace, restartTrace, undoLook } from "../../document/commands/trace";
import { current, run } from "../../document/store";
import { listenerName } from "../../text/names";
import { describeBreaks, describeTrace, formatAbout } from "../../text/trace";
import { describeLook, describeRemedy } from "../../text/trace-links";
import { capitalised } from "../../text/words";
import { Explain } from "../../ui/explain";
import { Verdict } from "../../ui/verdict";
import { runWithWord } from "../act";
import { buzz, useAwake } from "../check/awake";
import { isBounce } from "../check/bounce";
import { TraceHelp } from "./help";
import { LinkChain } from "./link-chain";
import { TooLoud } from "./loud";
import { traced } from "./session";

const ANSWERS = [
  ["signal", "Signal"],
  ["no signal", "No signal"],
  ["unseen", "Can’t see"],
] as const;

/** Where to look next, with a big button for each answer. */
const Look = ({ link }: { link: TraceLink }) => {
  const { where, how } = describeLook(current.value, link);
  return (
    <>
      <div role="status" class="stack">
        <p class="look-at">
          <span class="soft small">Look here next</span>
          <br />
          <b>{where}</b>
        </p>
        <p>{how}</p>
      </div>
      <div class="looks">
        {ANSWERS.map(([said, word]) => (
          <button
            type="button"
            key={said}
            class={said === "unseen" ? "unseen" : ""}
            onClick={() => {
              if (isBounce()) return;
              buzz();
              run(addLook({ link: link.code, said }));
            }}
          >
            {word}
          </button>
        ))}
      </div>
    </>
  );
};

/** What to do at each link that nobody can tell from the next. */
const Remedies = ({ links }: { links: readonly TraceLink[] }) => (
  <ol>
    {links.map((link) => (
      <li key={link.code}>{describeRemedy(current.value, link)}</li>
    ))}
  </ol>
);

const Missing = () => {
  useAwake();
  const now = traced.value;
  if (!now) return null;
  const { chain, suspects, next, looks } = now;
  const about = formatAbout(current.value, now.about);
  const link = suspects.find((l) => l.code === next);
  const stops = looks.length === 0 && chain ? describeBreaks(current.value, chain, about) : null;
  const { tone, says, more } =
    stops ?? describeTrace(current.value, chain, suspects, link === undefined, about);
  return (
    <>
      <Verdict tone={tone} says={says}>
        {more}
      </Verdict>
      {link ? <Look link={link} /> : suspects.length > 1 ? <Remedies links={suspects} /> : null}
      {chain ? (
        <div class="row">
          <button type="button" disabled={looks.length === 0} onClick={() => run(undoLook())}>
            Undo answer
          </button>
          <button type="button" disabled={looks.length === 0} onClick={() => run(restartTrace())}>
            Start again
          </button>
        </div>
      ) : null}
      {chain ? <LinkChain chain={chain} suspects={suspects} /> : null}
    </>
  );
};

/** A trace under way: where to look next, until one link is left. */
export const Tracing = () => {
  const now = traced.value;
  if (!now) return null;
  const { about, listener } = now;
  const isLoud = about.what === "too loud";
  return (
    <>
      <p class="soft">
        {capitalised(formatAbout(current.value, about))}, {isLoud ? "too loud for" : "not heard by"}{" "}
        {listenerName(listener)}
      </p>
      {isLoud ? <TooLoud channel={about.channel} /> : <Missing />}
      <div class="row apart">
        <button type="button" onClick={() => runWithWord(endTrace(), "Trace ended")}>
          End the trace
        </button>
        <a href="#check">Back to the line check</a>
      </div>
      {isLoud ? null : (
        <Explain about="Where to look, and why">
          <TraceHelp />
        </Explain>
      )}
    </>
  );
};
