/** How a check by input finds a fault, and what it takes for granted. */
export const HearHelp = () => (
  <>
    <p>
      Each hit is measured over 150 ms from its onset: level of L and R with the noise before it subtracted, R
      over L, and their correlation. Two hits at once and hits that clip do not count.
    </p>
    <p>
      For every known fault it computes what a hit of each drum would bring on L and R, with the bleed and the
      overheads that a stage may have, and from that the chance of what was measured. It asks for the drum
      that tells most, and stops when it is sure.
    </p>
    <p>
      A drum differs where what was measured is more than three standard deviations from the plan; a
      difference within the bleed that is usual does not count.
    </p>
    <p>
      Source: Bayes’ rule (textbook); bleed, overheads and when it stops are models tuned by simulation,
      common practice, no source.
    </p>
  </>
);
