/** What the desk list holds, and what its ticks are worth. */
export const DeskHelp = () => (
  <>
    <p>
      Every control that the plan needs, in the order you meet them at the desk: channels bank by bank, each
      with its direct out and its sends, then buses, output ports, the monitor system and musicians’ mixers. A
      desk that nobody has set yet is assumed to have direct outs and sends off and bus faders down,
      everything else at unity, centred and on. A channel fader is listed only where something is tapped
      post-fader.
    </p>
    <p>
      A tick holds for one value. When the plan changes a control afterwards, its tick is gone and the line
      says what it was ticked at.
    </p>
    <p>
      Setups are compared by the names of channels, buses and listeners. With less than a third of all channel
      names in common they count as different bands.
    </p>
    <p>Source: common practice, no source; the third is a design choice.</p>
  </>
);
