// Measures the drawings of a page and writes what it finds, as JSON, to the
// element "found". A text's runs are as wide as their advance and as high as
// their ink, which a canvas measures: a text's own box is as high as its font's
// tallest letters, and such boxes meet where no ink does.
const canvas = document.createElement("canvas").getContext("2d");
const wanted = JSON.parse(document.getElementById("wanted").textContent);

function width(font, text) {
  canvas.font = font;
  return canvas.measureText(text).width;
}

// installed: a font that is not there is as wide as what stands in for it.
function installed(family) {
  const word = "mmmMMMiiiWWW";
  return ["monospace", "serif"].every((f, i, all) =>
    width(`100px "${family}", ${f}`, word) === width(`100px "${family}", ${all[1 - i]}`, word));
}

// area is a box of an element's, in the units of its drawing. On a page that is
// scaled and moved, not turned.
function area(element, box, what) {
  const m = element.ownerSVGElement.getScreenCTM().inverse().multiply(element.getScreenCTM());
  const x = m.e + m.a * box.x, y = m.f + m.d * box.y;
  return {Left: x, Top: y, Right: x + m.a * box.width, Bottom: y + m.d * box.height, What: what};
}

function runs(text, number) {
  const found = [];
  let at = 0;
  const walk = document.createTreeWalker(text, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const said = node.data, style = getComputedStyle(node.parentElement);
    canvas.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    const ink = canvas.measureText(said);
    const start = text.getStartPositionOfChar(at), end = text.getEndPositionOfChar(at + said.length - 1);
    at += said.length;
    if (said.trim() === "") continue;
    const box = {x: start.x, width: end.x - start.x, y: start.y - ink.actualBoundingBoxAscent,
      height: ink.actualBoundingBoxAscent + ink.actualBoundingBoxDescent};
    found.push({...area(text, box, said), Of: number});
  }
  return found;
}

const found = {Installed: wanted.every(installed), Sheets: [], Widths: {}};
for (const svg of document.querySelectorAll("svg")) {
  const sheet = {Width: svg.viewBox.baseVal.width, Height: svg.viewBox.baseVal.height, Texts: [], Shapes: [], Boxes: []};
  svg.querySelectorAll("text").forEach((text, i) => sheet.Texts.push(...runs(text, i)));
  svg.querySelectorAll("path, circle").forEach(shape => {
    const d = shape.getAttribute("d") || "dot";
    if (!d.includes("C")) sheet.Shapes.push(area(shape, shape.getBBox(), d));
  });
  svg.querySelectorAll("rect[rx]").forEach(box => sheet.Boxes.push(area(box, box.getBBox(), "box")));
  found.Sheets.push(sheet);
}
for (const [name, font] of [["sans", 'SIZE "Liberation Sans"'], ["bold", 'bold SIZE "Liberation Sans"'], ["serif", 'SIZE "Liberation Serif"']]) {
  found.Widths[name] = [];
  for (let c = 32; c < 127; c++) found.Widths[name].push(width(font.replace("SIZE", "1000px"), String.fromCharCode(c)));
}
document.getElementById("found").textContent = JSON.stringify(found);
