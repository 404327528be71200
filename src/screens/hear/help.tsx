/** How a check by input finds a fault, and what it takes for granted. */
export const HearHelp = () => (
  <>
    <p>
      Each hit is measured over 150 ms from its onset: the levels of L and R with the noise before it
      subtracted, their difference R − L, and their correlation. Two hits at once and hits that clip do not
      count.
    </p>
    <p>
      For every known fault the check computes what a hit on each drum would give on L and R, with the bleed
      and the overheads that a stage may have, and from that the chance of what was measured. It asks for the
      drum that tells most, and stops when it is sure.
    </p>
    <p>
      A drum differs if what was measured is more than three standard deviations from the plan; a difference
      that normal bleed explains does not count.
    </p>
    <p>
      Source: Bayes’ rule (textbook); bleed, overheads and when the check stops are models tuned by
      simulation, common practice, no source.
    </p>
  </>
);
