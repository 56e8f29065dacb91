// A picture of buns as a phone would take one, drawn by the browser, for journeys and docs: the
// same each time, and nobody's photograph.
import { tmpdir } from "node:os";
import { join } from "node:path";

const bun = (x, y, turn) => `<g transform="translate(${x} ${y}) rotate(${turn})">
  <ellipse cx="6" cy="26" rx="118" ry="96" fill="#1c0f06" opacity=".45" filter="url(#soft)"/>
  <ellipse rx="116" ry="100" fill="url(#crust)"/>
  <ellipse rx="116" ry="100" filter="url(#grain)" opacity=".35" clip-path="url(#round)"/>
  <path d="M-92 -18 C-40 -58 40 -58 92 -18 C44 -34 -44 -34 -92 -18Z" fill="#f0d3a0" opacity=".75"/>
  <ellipse cx="-34" cy="-52" rx="34" ry="14" fill="#fff3d6" opacity=".5" filter="url(#soft)"/></g>`;

/** `light`: 1 as they should be, less is darker. */
const tray = (light) => `<svg xmlns="http://www.w3.org/2000/svg" width="960" height="720"><defs>
  <radialGradient id="crust" cx=".42" cy=".3" r=".8"><stop offset="0" stop-color="#d79a4a"/><stop offset=".55" stop-color="#b06a26"/><stop offset="1" stop-color="#5f3210"/></radialGradient>
  <linearGradient id="wood" x2="1" y2=".25"><stop offset="0" stop-color="#6d5442"/><stop offset=".5" stop-color="#8a6d56"/><stop offset="1" stop-color="#594436"/></linearGradient>
  <clipPath id="round"><ellipse rx="116" ry="100"/></clipPath>
  <filter id="soft"><feGaussianBlur stdDeviation="11"/></filter>
  <filter id="grain" x="-10%" y="-10%" width="120%" height="120%"><feTurbulence baseFrequency=".06" numOctaves="4" seed="7"/><feColorMatrix values="0 0 0 0 .25  0 0 0 0 .12  0 0 0 0 .04  1.6 0 0 0 -.45"/></filter>
  <filter id="wooden"><feTurbulence baseFrequency=".004 .09" numOctaves="3" seed="3"/><feColorMatrix values="0 0 0 0 .2  0 0 0 0 .13  0 0 0 0 .08  1 0 0 0 -.25"/></filter></defs>
  <rect width="960" height="720" fill="url(#wood)"/><rect width="960" height="720" filter="url(#wooden)" opacity=".6"/>
  <rect x="70" y="70" width="820" height="580" rx="26" fill="#2a2725"/><rect x="86" y="84" width="788" height="552" rx="18" fill="#3a3633"/>
  <g style="filter:brightness(${light})">${bun(235, 230, -8)}${bun(480, 215, 5)}${bun(728, 236, 12)}${bun(228, 480, 4)}${bun(482, 492, -5)}${bun(732, 484, -11)}</g></svg>`;

/** The file's path. */
export async function drawnBuns(context, light = 1) {
  const path = join(tmpdir(), `maslin-drawn-buns-${light}.jpg`);
  const page = await context.newPage();
  await page.setViewportSize({ width: 960, height: 720 });
  await page.setContent(`<body style="margin:0">${tray(light)}</body>`);
  await page.screenshot({ path, type: "jpeg", quality: 85 });
  await page.close();
  return path;
}
