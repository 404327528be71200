import "./pieces/base.css";
import "./pieces/parts.css";
import { render } from "preact";
import { allowOwnScripts } from "./offline/own-scripts";
import { AboutScreen } from "./screens/about";
import { KitScreen } from "./screens/kit/kit";
import { followAddress } from "./screens/route";
import { Shell } from "./screens/shell";

allowOwnScripts();
followAddress();

const root = document.getElementById("app");

import { CheckScreen } from "./screens/check/check";
import { PatchScreen } from "./screens/patch/patch";
import { SumScreen } from "./screens/sum/sum";

const Soon = () => <p>soon</p>;
if (root)
  render(
    <Shell
      screens={{
        kit: KitScreen,
        image: Soon,
        sum: SumScreen,
        patch: PatchScreen,
        check: CheckScreen,
        setups: Soon,
        about: AboutScreen,
      }}
      notices={() => null}
    />,
    root,
  );
