import "./hear.css";
import type { ComponentChildren } from "preact";
import { useLayoutEffect } from "preact/hooks";
import type { LiveInput } from "../../hear/input";
import {
  describeInputFault,
  describeProcessing,
  describeTrouble,
  formatDevice,
  formatRate,
} from "../../text/hear-input";
import { Pick } from "../../ui/choice";
import { closeEar, devices, ear, fault, openEar } from "./session";

/** Keeps the word for what is wrong with the signal in one place, so that it is read out when it changes. */
const SignalFault = () => {
  const found = fault.value;
  const said = found && describeInputFault(found);
  return (
    <div role="status">
      {said ? (
        <p class={said.tone === "wrong" ? "notice bad" : "notice warn"}>
          <b>{said.says}.</b> {said.more}
        </p>
      ) : null}
    </div>
  );
};

const Open = ({ input: { state }, children }: { input: LiveInput; children: ComponentChildren }) => {
  const processing = describeProcessing(state);
  const listed = devices.value;
  const options = listed.some(({ id }) => id === state.device.id) ? listed : [state.device, ...listed];
  return (
    <>
      <div class="notice row apart">
        <p class="open-input">
          <b>The microphone is open.</b> L and R are measured; nothing is recorded or sent.
        </p>
        <button type="button" onClick={() => closeEar()}>
          Close the input
        </button>
      </div>
      <SignalFault />
      {processing.isClean ? null : <p class="notice warn">{processing.says}</p>}
      {children}
      <Pick
        label="Input"
        value={state.device.id}
        options={options.map((device, at) => [device.id, formatDevice(device, at)] as const)}
        onValue={(id) => void openEar(id)}
      />
      <p class="soft small">
        {formatRate(state)}.{processing.isClean ? ` ${processing.says}` : ""}
      </p>
    </>
  );
};

/** The audio input and how it stands; what measures it is shown while it is open. It closes when this part is left. */
export const InputPanel = (props: { children: ComponentChildren }) => {
  const now = ear.value;
  useLayoutEffect(() => () => closeEar(), []);
  if (now.kind === "open") return <Open input={now.input}>{props.children}</Open>;
  const isOpening = now.kind === "opening";
  return (
    <>
      {now.kind === "closed" && now.why ? (
        <p class="notice bad" role="alert">
          {describeTrouble(now.why)}
        </p>
      ) : null}
      {isOpening ? <p role="status">Waiting for the browser: allow the microphone.</p> : null}
      <div class="row">
        {isOpening ? (
          <button type="button" onClick={() => closeEar()}>
            Cancel
          </button>
        ) : (
          <button type="button" class="main" onClick={() => void openEar(null)}>
            Open the input
          </button>
        )}
      </div>
    </>
  );
};
