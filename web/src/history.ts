// Undo and redo over whole, immutable states.

export interface History<State> {
  past: readonly State[];
  present: State;
  future: readonly State[];
}

const mostKept = 200;

export const begun = <State>(present: State): History<State> => ({ past: [], present, future: [] });

/** A new state that can be undone. */
export function changed<State>(history: History<State>, next: State): History<State> {
  return { past: [...history.past, history.present].slice(-mostKept), present: next, future: [] };
}

/** Replaces the present without a step to undo: a drag on its way. */
export const moved = <State>(history: History<State>, next: State): History<State> => ({
  ...history,
  present: next,
});

export function undone<State>(history: History<State>): History<State> {
  const before = history.past.at(-1);
  return before === undefined
    ? history
    : {
        past: history.past.slice(0, -1),
        present: before,
        future: [history.present, ...history.future],
      };
}

export function redone<State>(history: History<State>): History<State> {
  const after = history.future[0];
  return after === undefined
    ? history
    : {
        past: [...history.past, history.present],
        present: after,
        future: history.future.slice(1),
      };
}
