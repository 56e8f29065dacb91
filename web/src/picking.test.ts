import assert from "node:assert/strict";
import { test } from "node:test";
import fc from "fast-check";
import { meanColour } from "./picking.ts";

test("a patch of one colour is that colour", () => {
  assert.equal(meanColour([160, 98, 45, 255, 160, 98, 45, 255]), "#a0622d");
  assert.equal(meanColour([0, 0, 0, 255]), "#000000");
});

test("light is averaged: half black and half white is lighter than the middle of their signs", () => {
  // Half of white's light is 188 of 255 in sRGB (IEC 61966-2-1); by a plain power of 2.2, 186.
  assert.equal(meanColour([0, 0, 0, 255, 255, 255, 255, 255]), "#bababa");
});

test("the mean lies between the darkest and the lightest, whatever their order", () => {
  const pixel = fc.tuple(fc.nat(255), fc.nat(255), fc.nat(255), fc.constant(255));
  fc.assert(fc.property(fc.array(pixel, { minLength: 1, maxLength: 40 }), (pixels) => {
    const mean = meanColour(pixels.flat());
    assert.equal(mean, meanColour([...pixels].reverse().flat()));
    for (const channel of [0, 1, 2] as const) {
      const value = Number.parseInt(mean.slice(1 + 2 * channel, 3 + 2 * channel), 16);
      const all = pixels.map((one) => one[channel]);
      assert.ok(value >= Math.min(...all) && value <= Math.max(...all));
    }
  }));
});
