import "../style/type.css";
import "../style/page.css";
import "../style/found.css";
import "../style/weighed.css";
import "../style/pictures.css";
import "../style/wants.css";
import "../style/day.css";
import "../style/devices.css";
import "../style/look_back.css";
import "../style/kitchen.css";
import "../style/baking.css";
import "../style/noting.css";
import "../style/small.css";
import "../style/print.css";
import { render } from "preact";
import { Mishap } from "./mishap.tsx";
import { Page } from "./page.tsx";
import { beginBaking } from "./baking/page_bake.ts";
import { beginJoining } from "./joining.ts";
import { beginPlanning } from "./planning.ts";
import { begin } from "./store.ts";
import { beginWanting } from "./wanting.ts";

const place = document.getElementById("page");
if (place) {
  render(<Mishap><Page /></Mishap>, place);
  void beginJoining();
  begin();
  beginWanting();
  beginPlanning();
  void beginBaking();
}
