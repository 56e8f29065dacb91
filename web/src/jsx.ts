// What the builds make elements with: see elements.mjs.
export { Fragment, h } from "preact";
