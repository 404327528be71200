/** What the desk list holds, and what its ticks are worth. */
export const DeskHelp = () => (
  <>
    <p>
      Every control that the plan needs, as a hand meets it: channels bank by bank, each with its direct out
      and its sends, then buses, output ports and musicians’ mixers. A desk that nobody has set is taken to
      have its feeds off and its bus faders down, everything else at unity, centred and on. A channel fader is
      listed only where something is taken after it.
    </p>
    <p>
      A tick holds for one value. When the plan changes a control afterwards, its tick is gone and the line
      says what it was ticked at.
    </p>
    <p>
      Setups are compared by the names of channels, buses and listeners. With less than a third of all channel
      names in common they are taken for different bands.
    </p>
    <p>Source: common practice, no source; the third is a design choice.</p>
  </>
);
