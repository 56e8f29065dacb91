// A picture of a bake, small; it opens whole.

import { pictureAt } from "./api.ts";

/** By the id of a picture that is kept, or at an address. */
export const Shot = ({ id = "", at = pictureAt(id), of }: { id?: string; at?: string; of: string }) => (
  <a class="shot" href={at} target="_blank"><img src={at} alt={`Picture: ${of}`} loading="lazy" width="80" height="80" /></a>
);
