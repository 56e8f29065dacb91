// How the builds of the page and of the card turn markup in scripts into calls: as
// h(name, properties, ...children), which is a twenty-fifth shorter than the automatic form.
import { fileURLToPath } from "node:url";

export const elements = {
  tsconfigRaw: { compilerOptions: { jsx: "react", jsxFactory: "h", jsxFragmentFactory: "Fragment" } },
  inject: [fileURLToPath(new URL("./src/jsx.ts", import.meta.url))],
};
