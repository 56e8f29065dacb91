// The pictures of docs/pictures/, at the sizes of a laptop and of a phone.
import { join } from "node:path";
import { forecastDrawn, root } from "./bench.mjs";

const folder = join(root, "docs/pictures");
const phone = { width: 390, height: 844 };

function picture(name, options, size) {
  return {
    name: `picture ${name}`,
    size,
    options: { deviceScaleFactor: 1, ...options },
    run: async ({ page, url }) => {
      await page.goto(url);
      await page.getByRole("button", { name: /parish pamphlet/ }).waitFor();
      await page.evaluate(() => document.fonts.ready);
      if (name.startsWith("first-visit")) {
        await page.screenshot({ path: join(folder, `${name}.png`) });
        return;
      }
      await page.getByRole("button", { name: /parish pamphlet/ }).click();
      await forecastDrawn(page, "1");
      await page.mouse.move(0, 0);
      await page.evaluate(() => scrollTo(0, 0));
      await page.waitForTimeout(500);
      if (name.startsWith("forecast")) {
        await page.evaluate(() => {
          const pictures = document.querySelector(".pictures");
          const bake = document.querySelector(".bake-picture") ?? document.querySelector(".dough-picture");
          if (pictures.scrollHeight > pictures.clientHeight + 4 && getComputedStyle(pictures).overflowY === "auto") {
            pictures.scrollTop = bake.offsetTop - pictures.offsetTop - 20;
          } else {
            bake.scrollIntoView();
          }
        });
        await page.waitForTimeout(500);
      }
      if (name.startsWith("kitchen")) {
        await page.getByRole("button", { name: /^Kitchen/ }).click();
        await page.waitForTimeout(200);
      }
      await page.screenshot({ path: join(folder, `${name}.png`) });
    },
  };
}

export const journeys = [
  picture("first-visit-1440", {}),
  picture("first-visit-390", {}, phone),
  picture("bench-1440", {}),
  picture("bench-dark-1440", { colorScheme: "dark" }),
  picture("bench-390", {}, phone),
  picture("forecast-1440", {}),
  picture("forecast-390", {}, phone),
  picture("kitchen-1440", {}),
];
