// Trials as the interface gives and takes them: notes as they were read, bakes and pictures sent.

import type { ChecklistStep } from "./baking/log.ts";
import { asked, posted } from "./server.ts";

/** A note as the program keeps it, as far as the page reads it. */
export interface NoteRead {
  note: number;
  at: string;
  text: string;
  corrected: boolean;
  instead_of: number | null;
  observations: unknown[];
  /** What was read from it, in words, and what is asked of the baker. */
  read_as: string[];
  questions: string[];
  /** Ids of its pictures. */
  pictures: string[];
}

/** The answer to a bake that was sent: its trial, of which the page reads this. */
export interface BakedTrial {
  trial: number;
  checklist: ChecklistStep[];
  notes: NoteRead[];
  added: number;
}

export const sendBaked = (baked: object): Promise<BakedTrial> => posted<BakedTrial>("baked", baked);
/** A picture as a note of a trial; sent twice, it is kept once. */
export const sendPicture = (trial: number, picture: string, { text, key, at_ms }: { text: string; key: string; at_ms: number }): Promise<NoteRead> =>
  asked<NoteRead>(`trials/${trial}/pictures?${new URLSearchParams({ text, key, at: new Date(at_ms).toISOString() })}`, {
    method: "POST",
    headers: { "Content-Type": "image/jpeg" },
    body: Uint8Array.from(atob(picture.split(",")[1] ?? ""), (sign) => sign.charCodeAt(0)),
  });
export const pictureAt = (id: string): string => `/api/v1/pictures/${id}`;
