import { EARPHONE_ERROR } from "../core/headroom/earphone";
import { Verdict } from "../ui/verdict";
import { SOURCES } from "./sources";

/** What this app is, what it rests on, and what it cannot do. */
export const AboutScreen = () => (
  <>
    <Verdict tone="fine" says="Hatside: which side is your hat on?">
      Version {__VERSION__}. MIT licence. Nothing you enter leaves this device unless you share it.
    </Verdict>
    <section class="stack" aria-labelledby="cautions">
      <h2 id="cautions">Cautions</h2>
      <ul class="stack">
        <li class="notice warn">
          Levels at the ear are estimates from data sheets, not measurements, and this is no dosimeter. Seal,
          fit and frequency move them by {EARPHONE_ERROR} dB or more.
        </li>
        <li class="notice warn">
          Hearing damage is permanent. Start low, use both ears, rest. Limits differ by country: follow local
          rules and the advice of qualified people.
        </li>
        <li class="notice warn">
          Taking an earpiece out or turning up to hear over the stage are the usual ways to damage hearing;
          in-ear monitors are no hearing protection by themselves.
        </li>
        <li class="notice warn">
          Headroom figures are for planning. Check with the meters of the desk before you trust a whole show
          to them.
        </li>
      </ul>
    </section>
    {SOURCES.map(({ title, texts }, at) => (
      <section key={title} class="stack" aria-labelledby={`channels-${at}`}>
        <h2 id={`channels-${at}`}>{title}</h2>
        <dl class="stack">
          {texts.map(({ text, used }) => (
            <div key={text}>
              <dt>{text}</dt>
              <dd class="soft small">{used}</dd>
            </div>
          ))}
        </dl>
      </section>
    ))}
    <p class="soft small">
      Hatside includes preact, @preact/signals, @preact/signals-core, uqr and workbox-window, each under the
      MIT licence, idb under the ISC licence, and mediabunny, unchanged, under the Mozilla Public License 2.0:
      its source is the package of that name in the npm registry.
    </p>
    <p class="soft small">
      Places of the pieces, what fits which tap point, balance laws and the −4.5 dB laws are common practice
      without a source; where a figure is a model, the screen says so.
    </p>
  </>
);
