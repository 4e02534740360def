// Drawings come from the server as SVG text. They are taken apart and put together again here, element by element, from a list of what a
// drawing may hold: whatever a pattern's words are, they can never become script, style or a link.

const SVG = "http://www.w3.org/2000/svg";
const ELEMENTS = new Set([
  "svg", "g", "path", "line", "polyline", "polygon", "circle", "ellipse", "rect", "text", "tspan", "textPath", "title", "desc", "defs", "use", "symbol", "clipPath", "pattern", "linearGradient", "stop", "metadata",
]);
const ATTRIBUTES = new Set([
  "id", "class", "d", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "dx", "dy", "width", "height", "points", "transform", "viewBox", "preserveAspectRatio", "fill", "fill-opacity", "fill-rule",
  "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin", "stroke-dasharray", "stroke-opacity", "stroke-miterlimit", "opacity", "font-family", "font-size", "font-weight", "font-style", "text-anchor",
  "dominant-baseline", "letter-spacing", "lang", "xml:lang", "role", "aria-label", "aria-labelledby", "aria-describedby", "clip-path", "clipPathUnits", "patternUnits", "patternTransform", "offset", "stop-color",
  "stop-opacity", "gradientUnits", "vector-effect", "startOffset", "textLength", "rotate", "paint-order",
]);

/** A drawing as elements of this page, or null when it is no drawing. */
export function drawing(text: string): SVGSVGElement | null {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
  const root = parsed.documentElement;
  if (root.localName !== "svg" || root.namespaceURI !== SVG || parsed.querySelector("parsererror")) return null;
  return copy(root) as SVGSVGElement | null;
}

function copy(from: Element): Element | null {
  if (from.namespaceURI !== SVG || !ELEMENTS.has(from.localName)) return null;
  const to = document.createElementNS(SVG, from.localName);
  for (const { name, value } of from.attributes) if (allowed(name, value)) to.setAttribute(name, value);
  for (const child of from.childNodes) {
    if (child.nodeType === Node.TEXT_NODE) to.append(child.textContent ?? "");
    else if (child.nodeType === Node.ELEMENT_NODE) {
      const made = copy(child as Element);
      if (made) to.append(made);
    }
  }
  return to;
}

function allowed(name: string, value: string): boolean {
  if (name === "href" || name === "xlink:href") return /^#[\w-]+$/.test(value);
  if (/url\s*\(/i.test(value) && !/^url\(#[\w-]+\)$/.test(value)) return false;
  return ATTRIBUTES.has(name) || /^data-[a-z-]+$/.test(name);
}

/** A drawing as a picture nobody can click into (for previews). */
export function picture(text: string, alt: string): HTMLImageElement {
  const image = new Image();
  image.src = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
  image.alt = alt;
  image.addEventListener("load", () => URL.revokeObjectURL(image.src), { once: true });
  return image;
}
