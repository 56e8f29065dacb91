// What happens on other devices, as it happens. The line is opened when somebody first
// listens; the browser mends it when it breaks.

let line: EventSource | null = null;

/** Calls back at each event of that name; gives a way to stop. */
export function onEvent(name: "changed" | "devices", heard: (data: { what?: string }) => void): () => void {
  line ??= new EventSource("/api/v1/events");
  const listen = (event: MessageEvent<string>): void => {
    try {
      heard(JSON.parse(event.data) as { what?: string });
    } catch {
      // An event that is no JSON says nothing.
    }
  };
  line.addEventListener(name, listen as EventListener);
  return () => line?.removeEventListener(name, listen as EventListener);
}
