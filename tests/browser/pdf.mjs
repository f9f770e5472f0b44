// What stands on the pages of a PDF, read with PDF.js: lines, filled shapes and words in millimetres of paper, right
// and down from the top left corner, every transformation applied. 72 points are an inch of 25.4 mm (ISO 32000-1,
// 8.3.2.3).

import { getDocument, OPS, VerbosityLevel } from 'pdfjs-dist/legacy/build/pdf.mjs';

const MM = 25.4 / 72;
/** Straight pieces for a curve. */
const PIECES = 8;

/**
 * The pages of a PDF. A page has
 * - `width`, `height`: its box;
 * - `strokes`: `{ points, closed, width, colour, clip }`, curves as chains of points;
 * - `fills`: `{ points, colour, clip }`;
 * - `words`: `{ text, at, end, size, colour, clip }`, `at` and `end` on the base line;
 * - `images`: how many pictures made of dots it has.
 *
 * `clip` is the box outside of which nothing of it is seen.
 */
export async function readPdf(bytes) {
  const reading = getDocument({ data: new Uint8Array(bytes), isEvalSupported: false, verbosity: VerbosityLevel.ERRORS });
  const file = await reading.promise;
  const pages = [];
  for (let number = 1; number <= file.numPages; number += 1) pages.push(await readPage(await file.getPage(number)));
  await reading.destroy();
  return pages;
}

async function readPage(page) {
  const [left, low, right, high] = page.view;
  const ink = new InkReader([MM, 0, 0, -MM, -left * MM, high * MM]);
  const { fnArray, argsArray } = await page.getOperatorList();
  fnArray.forEach((operator, i) => ink.take(operator, argsArray[i] ?? []));
  const { strokes, fills, words, images } = ink;
  return { width: (right - left) * MM, height: (high - low) * MM, strokes, fills, words, images };
}

/** The product of two transformations: `inner` first. */
const after = ([a, b, c, d, e, f], [g, h, i, j, k, l]) =>
  [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];

/** Follows the operators of a page. */
class InkReader {
  strokes = [];
  fills = [];
  words = [];
  images = 0;
  #kept = [];
  #chains = [];
  #here = [0, 0];
  #clipNext = false;
  #run = null;
  #state;

  constructor(matrix) {
    const everywhere = { left: -Infinity, top: -Infinity, right: Infinity, bottom: Infinity };
    this.#state = { matrix, width: 1, stroke: '0,0,0', fill: '0,0,0', font: null, size: 0, clip: everywhere };
  }

  take(operator, values) {
    const state = this.#state;
    switch (operator) {
      case OPS.save: this.#kept.push({ ...state }); break;
      case OPS.restore: this.#state = this.#kept.pop(); break;
      case OPS.transform: state.matrix = after(state.matrix, values); break;
      case OPS.paintFormXObjectBegin:
        this.#kept.push({ ...state });
        if (values[0]) state.matrix = after(state.matrix, values[0]);
        break;
      case OPS.paintFormXObjectEnd: this.#state = this.#kept.pop(); break;
      case OPS.setLineWidth: [state.width] = values; break;
      case OPS.setGState: state.width = values[0].find(([key]) => key === 'LW')?.[1] ?? state.width; break;
      case OPS.setStrokeRGBColor: state.stroke = Array.from(values).join(); break;
      case OPS.setFillRGBColor: state.fill = Array.from(values).join(); break;
      // PDF.js may hand a path over in two parts: the second goes on where the first ended.
      case OPS.constructPath: this.#here = chains(values[0], values[1], (p) => this.#place(p), this.#chains, this.#here); break;
      case OPS.clip: case OPS.eoClip: this.#clipNext = true; break;
      case OPS.stroke: this.#stroke(); break;
      case OPS.closeStroke: this.#chains.forEach((chain) => { chain.closed = true; }); this.#stroke(); break;
      case OPS.fill: case OPS.eoFill: this.#fill(); break;
      case OPS.fillStroke: case OPS.eoFillStroke: this.#fill(false); this.#stroke(); break;
      case OPS.endPath: this.#endPath(); break;
      case OPS.beginText: this.#run = { text: '', at: null, end: null, line: [1, 0, 0, 1, 0, 0] }; break;
      case OPS.setFont: [state.font, state.size] = values; break;
      case OPS.setTextMatrix: this.#run.line = values; break;
      case OPS.moveText: this.#run.line = after(this.#run.line, [1, 0, 0, 1, ...values]); break;
      case OPS.showText: this.#show(values[0]); break;
      case OPS.endText: this.#endText(); break;
      case OPS.paintImageXObject: case OPS.paintInlineImageXObject: case OPS.paintImageMaskXObject:
        this.images += 1;
        break;
      default:
    }
  }

  #place([x, y], [a, b, c, d, e, f] = this.#state.matrix) {
    return [a * x + c * y + e, b * x + d * y + f];
  }

  #scale(matrix = this.#state.matrix) {
    return Math.sqrt(Math.abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]));
  }

  #stroke() {
    const { width, stroke: colour, clip } = this.#state;
    for (const chain of this.#chains) this.strokes.push({ ...chain, width: width * this.#scale(), colour, clip });
    this.#endPath();
  }

  #fill(ends = true) {
    const { fill: colour, clip } = this.#state;
    for (const { points } of this.#chains) this.fills.push({ points, colour, clip });
    if (ends) this.#endPath();
  }

  #endPath() {
    if (this.#clipNext) {
      const box = boxAround(this.#chains.flatMap(({ points }) => points));
      const { clip } = this.#state;
      this.#state.clip = {
        left: Math.max(clip.left, box.left),
        top: Math.max(clip.top, box.top),
        right: Math.min(clip.right, box.right),
        bottom: Math.min(clip.bottom, box.bottom),
      };
    }
    this.#clipNext = false;
    this.#chains = [];
  }

  #show(glyphs) {
    const run = this.#run;
    const matrix = after(this.#state.matrix, run.line);
    let along = 0;
    run.at ??= this.#place([0, 0], matrix);
    for (const glyph of glyphs) {
      if (typeof glyph === 'number') {
        along -= (glyph / 1000) * this.#state.size;
      } else {
        run.text += glyph.unicode;
        along += (glyph.width / 1000) * this.#state.size;
      }
    }
    run.end = this.#place([along, 0], matrix);
    run.size = this.#state.size * this.#scale(matrix);
  }

  #endText() {
    const { text, at, end, size } = this.#run;
    const { fill: colour, clip } = this.#state;
    if (text.trim()) this.words.push({ text, at, end, size, colour, clip });
    this.#run = null;
  }
}

/** Adds the chains of a path, placed on the paper, to those of its first part; answers where the pen stands. */
function chains(operators, numbers, place, all, pen) {
  let next = 0;
  const point = () => [numbers[next++], numbers[next++]];
  let here = pen;
  const start = (from) => { here = from; all.push({ points: [place(from)], closed: false }); };
  const lineTo = (to) => { here = to; all.at(-1).points.push(place(to)); };
  const curveTo = (first, second, to) => {
    const from = here;
    for (let piece = 1; piece <= PIECES; piece += 1) {
      const [u, v] = [piece / PIECES, 1 - piece / PIECES];
      lineTo([0, 1].map((i) =>
        v ** 3 * from[i] + 3 * v * v * u * first[i] + 3 * v * u * u * second[i] + u ** 3 * to[i]));
    }
  };
  for (const operator of operators) {
    if (operator === OPS.moveTo) start(point());
    else if (operator === OPS.lineTo) lineTo(point());
    else if (operator === OPS.curveTo) curveTo(point(), point(), point());
    else if (operator === OPS.curveTo2) curveTo(here, point(), point());
    else if (operator === OPS.curveTo3) { const [first, to] = [point(), point()]; curveTo(first, to, to); }
    else if (operator === OPS.closePath) all.at(-1).closed = true;
    else if (operator === OPS.rectangle) {
      const [[x, y], [w, h]] = [point(), point()];
      start([x, y]);
      [[x + w, y], [x + w, y + h], [x, y + h]].forEach(lineTo);
      all.at(-1).closed = true;
    }
  }
  return here;
}

/** The box around points. */
export function boxAround(points) {
  const [x, y] = [points.map((p) => p[0]), points.map((p) => p[1])];
  return { left: Math.min(...x), top: Math.min(...y), right: Math.max(...x), bottom: Math.max(...y) };
}
