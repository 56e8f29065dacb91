// What is shown when the bench cannot be drawn: the found words, so that nothing is
// lost, and a way to go on.

import { Component, type ComponentChildren } from "preact";
import { Plain } from "./plain.tsx";
import { bench, clearBench } from "./store.ts";

export class Mishap extends Component<{ children: ComponentChildren }, { failed: boolean }> {
  override state = { failed: false };

  static override getDerivedStateFromError(): { failed: boolean } {
    return { failed: true };
  }

  override render() {
    if (!this.state.failed) {
      return this.props.children;
    }
    return (
      <main class="empty">
        <h1>This recipe could not be drawn.</h1>
        <p class="lead">Its words are here: copy them, then start afresh.</p>
        <textarea rows={12} readOnly aria-label="Found text" value={bench.value.found} />
        <p class="ask-ways">
          <Plain class="strong" onClick={() => {
            clearBench();
            this.setState({ failed: false });
          }}>Start afresh</Plain>
        </p>
      </main>
    );
  }
}
