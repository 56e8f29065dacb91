// A picture as a file of its own: an SVG that looks the same without the page's styles.

// What of the page's styles an SVG elsewhere needs said on each of its elements.
const said = [
  "fill", "fill-opacity", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap",
  "stroke-linejoin", "opacity", "display", "transform",
  "font-family", "font-size", "font-weight", "text-anchor",
] as const;
const untold: Readonly<Record<string, string>> = {
  "fill-opacity": "1", opacity: "1", "stroke-dasharray": "none", "stroke-linecap": "butt",
  "stroke-linejoin": "miter", display: "inline", transform: "none", stroke: "none",
};
const svgSpace = "http://www.w3.org/2000/svg";
const drawn = new Set(["path", "rect", "line", "circle", "text", "tspan"]);

// Browsers mix colours in spaces that other programs do not know.
let drop: CanvasRenderingContext2D | null = null;
function plainColour(value: string): string {
  if (!/^(?!rgb|none|url|#)\w+\(/.test(value)) {
    return value;
  }
  drop ??= document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  if (!drop) {
    return value;
  }
  drop.clearRect(0, 0, 1, 1);
  drop.fillStyle = value;
  drop.fillRect(0, 0, 1, 1);
  const [red, green, blue] = drop.getImageData(0, 0, 1, 1).data;
  return `rgb(${red}, ${green}, ${blue})`;
}

function tell(from: Element, to: Element): void {
  const style = getComputedStyle(from);
  for (const name of drawn.has(from.tagName) || from.tagName === "g" ? said : []) {
    const value = plainColour(style.getPropertyValue(name));
    const ofGroup = name === "transform" || name === "opacity" || name === "display";
    if (value === "" || value === untold[name] || (from.tagName === "g" && !ofGroup) ||
      (/^(font|text)/.test(name) && from.tagName !== "text")) {
      continue;
    }
    // A transform written on the element is in the picture's own units: it stays.
    if (name !== "transform" || !from.hasAttribute("transform")) {
      to.setAttribute(name, value);
    }
  }
  to.removeAttribute("class");
  to.removeAttribute("style");
  [...from.children].forEach((child, i) => {
    const copy = to.children[i];
    if (copy) {
      tell(child, copy);
    }
  });
}

/** All pictures within an element, one under another, as the text of one SVG file. */
export function svgFile(within: Element, title: string): string {
  const pictures = [...within.querySelectorAll("svg")];
  const file = document.createElementNS(svgSpace, "svg");
  const heading = document.createElementNS(svgSpace, "title");
  heading.textContent = title;
  const paper = document.createElementNS(svgSpace, "rect");
  file.append(heading, paper);
  const margin = 16;
  let width = 0;
  let below = margin;
  for (const picture of pictures) {
    const { x, y, width: across, height } = picture.viewBox.baseVal;
    const copy = picture.cloneNode(true) as SVGSVGElement;
    tell(picture, copy);
    for (const [name, value] of Object.entries({ x: margin, y: below, width: across, height })) {
      copy.setAttribute(name, String(value));
    }
    copy.setAttribute("viewBox", `${x} ${y} ${across} ${height}`);
    copy.setAttribute("overflow", "visible");
    file.append(copy);
    below += height + margin;
    width = Math.max(width, across);
  }
  width += 2 * margin;
  paper.setAttribute("width", String(width));
  paper.setAttribute("height", String(below));
  paper.setAttribute("fill", getComputedStyle(document.documentElement).backgroundColor);
  file.setAttribute("viewBox", `0 0 ${width} ${below}`);
  file.setAttribute("width", String(width));
  file.setAttribute("height", String(below));
  return new XMLSerializer().serializeToString(file);
}

/** Hands a text to the person as a file. */
export function saveFile(name: string, type: string, text: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
