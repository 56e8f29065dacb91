import "../../style/type.css";
import "../../style/pictures.css";
import "../../style/baking.css";
import "../../style/card.css";
import { effect } from "@preact/signals";
import { render } from "preact";
import { CardPage } from "./card_page.tsx";
import { begin, view } from "./store.ts";

const place = document.getElementById("page");
if (place) {
  place.replaceChildren();
  render(<CardPage />, place);
  // A reload in the middle of a bake comes back to the bake.
  effect(() => history.replaceState(null, "", view.value === "baking" ? "#baking" : "#"));
  void begin();
}
