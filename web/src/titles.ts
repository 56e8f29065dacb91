// Titles as they are shown.

import { capital } from "./words.ts";

/** A title that shouts is written down: "PUMPKIN KNOTS" is "Pumpkin knots". */
export const spokenTitle = (title: string): string =>
  title !== "" && title === title.toUpperCase() ? capital(title.toLowerCase()) : title;
