// Joining a kitchen from another device, and looking after the devices that joined.

import { signal } from "@preact/signals";
import { onEvent } from "./live.ts";
import { asked, posted, sentenceOf, unpaired } from "./server.ts";

export interface Devices {
  lan: boolean;
  address?: string;
  code?: string;
  code_seconds?: number;
  qr?: string[];
  devices: { id: string; name: string; paired_ms: number; seen_ms: number }[];
}

export const devices = signal<Devices | null>(null);
export const devicesOpen = signal(false);
export const joinProblem = signal("");

const here = (): boolean => /^(127\.0\.0\.1|localhost|\[::1\])$/.test(location.hostname);

/** What a device is called in the list, as far as its browser says. */
export function deviceName(agent: string): string {
  const kind = /iPad|Tablet/.test(agent) ? "Tablet" : /iPhone|Android|Mobile/.test(agent) ? "Phone" : "Computer";
  const system = /iPhone|iPad|Mac OS/.exec(agent) ? "Apple" : /Android|Windows|Linux/.exec(agent)?.[0];
  return system ? `${kind} (${system})` : kind;
}

export async function join(code: string): Promise<void> {
  joinProblem.value = "";
  try {
    await posted("pair", { code, name: deviceName(navigator.userAgent) });
    unpaired.value = false;
  } catch (error) {
    joinProblem.value = sentenceOf(error);
    unpaired.value = true;
  }
}

async function look(ask: Promise<Devices>): Promise<void> {
  devices.value = await ask.catch(() => devices.value);
}
export const lookAtDevices = (): Promise<void> => look(asked<Devices>("devices"));
export const newCode = (): Promise<void> => look(posted<Devices>("devices/code", {}));
export const removeDevice = (id: string): Promise<void> =>
  look(posted<Devices>(`devices/${encodeURIComponent(id)}/remove`, {}));

/** On this machine: who is joined. Elsewhere: joins by the code in the address, if there is one. */
export async function beginJoining(): Promise<void> {
  if (here()) {
    await lookAtDevices();
    if (devices.value?.lan) {
      onEvent("devices", () => void lookAtDevices());
    }
    return;
  }
  const code = /^#pair=([\w-]+)$/.exec(location.hash)?.[1];
  if (code !== undefined) {
    history.replaceState(null, "", location.pathname);
    await join(code);
  } else {
    await asked("about").catch(() => undefined);
  }
}
