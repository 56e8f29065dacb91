// What is written all over the page: its button, and words that are quiet, heard only, or a problem.

import type { ComponentChildren, ComponentProps } from "preact";

/** Plain unless its class says otherwise. */
export const Plain = (props: ComponentProps<"button">) => <button type="button" class="plain" {...props} />;

interface Within {
  children?: ComponentChildren;
}
export const Quiet = ({ children }: Within) => <p class="quiet">{children}</p>;
/** For screen readers alone. */
export const Unseen = ({ children }: Within) => <span class="unseen">{children}</span>;
/** Not on show while it is empty. */
export const Problem = ({ children }: Within) => <p class="problem" role="alert">{children}</p>;
