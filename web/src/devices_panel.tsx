// The devices that may use this kitchen, and how another joins.

import { type Devices, devices, devicesOpen, newCode, removeDevice } from "./joining.ts";
import { dayWords, figure } from "./numbers.ts";
import { Plain, Quiet, Unseen } from "./plain.tsx";

const quietZone = 4;

/** The squares of a QR code as one path; dark on white in any light, as readers want it. */
function Squares({ rows, label }: { rows: string[]; label: string }) {
  const size = rows.length + 2 * quietZone;
  const dark = rows.flatMap((row, y) =>
    [...row.matchAll(/1+/g)].map(({ index, 0: run }) => `M${index + quietZone} ${y + quietZone}h${run.length}v1h-${run.length}z`));
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label} shape-rendering="crispEdges">
      <rect width={size} height={size} />
      <path d={dark.join("")} />
    </svg>
  );
}

function HowToJoin({ address, code, code_seconds, qr }: Devices) {
  return code === undefined ? (
    <div class="how-to-join">
      <p>No code holds just now. A code is for one device and ten minutes.</p>
      <Plain class="strong" onClick={() => void newCode()}>Let a device join</Plain>
    </div>
  ) : (
    <div class="how-to-join">
      {qr && qr.length > 0 && <Squares rows={qr} label="Address and code, for a phone's camera" />}
      <div>
        <p>On a phone in this network, look at these squares with its camera. Or open</p>
        <p class="join-address">{address}</p>
        <p>and type</p>
        <p class="join-code">{code}</p>
        <Quiet>
          It joins one device, and holds {figure(Math.max(1, Math.round((code_seconds ?? 0) / 60)))} minutes more.
        </Quiet>
        <Plain onClick={() => void newCode()}>Another code</Plain>
      </div>
    </div>
  );
}

export function DevicesPanel() {
  const now = devices.value;
  if (!now?.lan || !devicesOpen.value) {
    return null;
  }
  return (
    <section id="devices" class="devices" aria-label="Devices">
      <HowToJoin {...now} />
      <div>
        <h2>Joined</h2>
        {now.devices.length === 0 && <Quiet>Only this computer so far.</Quiet>}
        <ul>
          {now.devices.map(({ id, name, paired_ms, seen_ms }) => (
            <li key={id}>
              <span><strong>{name}</strong> <span class="quiet">since {dayWords(paired_ms)}, seen {dayWords(seen_ms)}</span></span>
              <Plain onClick={() => void removeDevice(id)}>
                Remove<Unseen> {name}</Unseen>
              </Plain>
            </li>
          ))}
        </ul>
        <Plain onClick={() => (devicesOpen.value = false)}>Done</Plain>
      </div>
    </section>
  );
}
