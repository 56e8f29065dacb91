// The only place that talks to the program: JSON out and in, or its sentence why not.

import { signal } from "@preact/signals";

/** Set once the program says that it does not know this device. */
export const unpaired = signal(false);

/** The program's sentence for the person: what is wrong, where, and the mend. */
export class ProblemError extends Error {}

/** What to tell the person of what went wrong. */
export const sentenceOf = (error: unknown, otherwise = "The page failed at this; reload it."): string =>
  error instanceof ProblemError ? error.message : otherwise;

const offline = "The program does not answer: is maslin serve still running?";

export async function asked<T>(path: string, init: RequestInit = {}): Promise<T> {
  let response: Response;
  try {
    response = await fetch(`/api/v1/${path}`, init);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") {
      throw error;
    }
    throw new ProblemError(offline);
  }
  const body: unknown = await response.json().catch(() => null);
  if (response.ok && body !== null) {
    return body as T;
  }
  unpaired.value ||= response.status === 401;
  const said = (body as { problem?: unknown } | null)?.problem;
  throw new ProblemError(typeof said === "string" ? said : `The program answered ${response.status}.`);
}

export function posted<T>(path: string, body: unknown, signal?: AbortSignal): Promise<T> {
  return asked<T>(path, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
    ...(signal ? { signal } : {}),
  });
}
