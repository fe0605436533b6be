// What a thumb or an eye would stumble over in the page that is shown, one line for each.
(least) => {
  const faults = [];
  const said = (element) => {
    const text = (element.textContent || element.name || "").trim().replace(/\s+/g, " ");
    return `${element.tagName.toLowerCase()}.${element.getAttribute("class") || ""} "${text.slice(0, 40)}"`;
  };
  for (const details of document.querySelectorAll("details")) details.open = true;
  const shown = (element) => element.checkVisibility({ visibilityProperty: true });

  // --- nothing lies beyond the side of the page ---
  const { scrollWidth, clientWidth } = document.documentElement;
  if (scrollWidth > clientWidth) {
    faults.push(`${scrollWidth} px wide in a window of ${clientWidth}`);
    for (const element of document.body.querySelectorAll("*")) {
      if (shown(element) && element.getBoundingClientRect().right > clientWidth + 1) {
        faults.push(`  ${said(element)} reaches to ${element.getBoundingClientRect().right}`);
      }
    }
  }

  // --- what is tapped is as high as a fingertip, or its label is ---
  const tapped = "a[href], button, summary, select, textarea, input:not([type=hidden])";
  for (const element of document.querySelectorAll(tapped)) {
    if (!shown(element)) continue;
    const parts = [element, ...(element.labels || [])];
    const most = Math.max(...parts.map((part) => part.getBoundingClientRect().height));
    if (most < least) faults.push(`${most.toFixed(1)} px high: ${said(element)}`);
  }

  // --- text stands out from what is behind it ---
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 1;
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  const rgba = (colour) => {
    pen.clearRect(0, 0, 1, 1);
    pen.fillStyle = colour;
    pen.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = pen.getImageData(0, 0, 1, 1).data;
    return [r, g, b, a / 255];
  };
  const over = ([r, g, b, a], [r2, g2, b2]) =>
    [[r, r2], [g, g2], [b, b2]].map(([top, below]) => top * a + below * (1 - a)).concat(1);
  // https://www.w3.org/TR/WCAG22/#dfn-relative-luminance and #dfn-contrast-ratio
  const luminance = (colour) => {
    const [r, g, b] = colour.slice(0, 3).map((part) => {
      const c = part / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (one, other) => {
    const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
    return (light + 0.05) / (dark + 0.05);
  };
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const colour = rgba(getComputedStyle(at).backgroundColor);
      if (colour[3] > 0) return colour[3] < 1 ? over(colour, behind(at.parentElement)) : colour;
    }
    return [255, 255, 255, 1];
  };
  // Behind a figure in a drawing is the last shape before it that is filled where it stands.
  const behindFigure = (text) => {
    const drawing = text.ownerSVGElement;
    const box = text.getBoundingClientRect();
    const middle = new DOMPoint(box.x + box.width / 2, box.y + box.height / 2);
    let found = behind(drawing);
    for (const shape of drawing.querySelectorAll("rect, path, polygon, circle")) {
      if (!(shape.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) break;
      const fill = getComputedStyle(shape).fill;
      if (fill === "none" || fill.startsWith("url")) continue;
      const there = middle.matrixTransform(shape.getScreenCTM().inverse());
      if (shape.isPointInFill(there)) found = over(rgba(fill), found);
    }
    return found;
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const seen = new Set();
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    const skipped = element.closest("title, option, script, style");
    if (!walker.currentNode.data.trim() || skipped || seen.has(element)) continue;
    seen.add(element);
    if (!shown(element)) continue;
    const style = getComputedStyle(element);
    const drawn = element instanceof SVGElement;
    const paper = drawn ? behindFigure(element.closest("text")) : behind(element);
    const ink = over(rgba(drawn ? style.fill : style.color), paper);
    const ratio = contrast(ink, paper);
    if (ratio < 4.5) faults.push(`contrast ${ratio.toFixed(2)}: ${said(element)}`);
  }
  for (const element of document.querySelectorAll("input, select, textarea, button")) {
    if (!shown(element) || getComputedStyle(element).opacity === "0") continue;
    const paper = behind(element);
    const ratio = contrast(rgba(getComputedStyle(element).color), paper);
    if (ratio < 4.5) faults.push(`contrast ${ratio.toFixed(2)}: ${said(element)}`);
  }
  return faults;
}
