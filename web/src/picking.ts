// A picture from the phone, made small enough to send, and the colour of a spot on it. What is
// drawn anew carries nothing of what the camera wrote into the file: no place, no time.

/** The longest side a picture is kept with. */
const most_px = 1280;

/** The picture as it is held, not larger than is kept; throws when the browser cannot read it. */
export async function drawn(file: Blob): Promise<HTMLCanvasElement> {
  const found = await createImageBitmap(file);
  const share = Math.min(1, most_px / Math.max(found.width, found.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(found.width * share));
  canvas.height = Math.max(1, Math.round(found.height * share));
  canvas.getContext("2d")?.drawImage(found, 0, 0, canvas.width, canvas.height);
  return canvas;
}

/** The mean of red, green, blue, opacity four by four, as "#a0622d"; light is averaged, not its signs. */
export function meanColour(pixels: ArrayLike<number>): string {
  const count = pixels.length / 4;
  return `#${[0, 1, 2].map((channel) => {
    let light = 0;
    for (let at = channel; at < pixels.length; at += 4) {
      light += (pixels[at] ?? 0) ** 2.2;
    }
    return Math.round((light / count) ** (1 / 2.2)).toString(16).padStart(2, "0");
  }).join("")}`;
}

/** The colour of a patch, a fortieth of the picture across, about a spot from 0 to 1 each way. */
export function colourAt(canvas: HTMLCanvasElement, across: number, down: number): string {
  const { width, height } = canvas;
  const side = Math.max(1, Math.round(Math.max(width, height) / 40));
  const from = (share: number, whole: number): number => Math.max(0, Math.min(whole - side, Math.round(share * whole - side / 2)));
  return meanColour(canvas.getContext("2d")?.getImageData(from(across, width), from(down, height), side, side).data ?? []);
}
