import { fileSave } from 'browser-fs-access';

/** Pixels of a PNG for one on screen: sharp in print. */
const PNG_SCALE = 2;

/** What a drawn element looks like; set by style sheets on screen and written out in a file. */
const DRAWN = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-opacity',
  'stroke-linejoin',
  'paint-order',
  'opacity',
  'font-family',
  'font-size',
  'font-weight',
  'text-anchor',
] as const;

/** Saves what an element draws, its canvases under its svg, as a file; the colours are those on screen. */
export async function savePicture(element: HTMLElement, title: string, kind: 'svg' | 'png'): Promise<void> {
  const svg = standaloneSvg(element);
  if (!svg) return;
  const fileName = `${title.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.${kind}`;
  const text = new XMLSerializer().serializeToString(svg);
  const blob = kind === 'svg' ? new Blob([text], { type: 'image/svg+xml' }) : await pngOf(text, svg);
  await saveFile(blob, fileName);
}

/** Saves a file where the person wants it; closing the dialog is no fault. */
export async function saveFile(blob: Blob, fileName: string): Promise<void> {
  const dot = fileName.lastIndexOf('.');
  try {
    await fileSave(blob, { fileName, extensions: [fileName.slice(dot)] });
  } catch (reason) {
    if (!(reason instanceof DOMException && reason.name === 'AbortError')) throw reason;
  }
}

/** A copy of the element's svg that needs no style sheet and holds its canvases as images; null where nothing is drawn. */
function standaloneSvg(element: HTMLElement): SVGSVGElement | null {
  const original = element.querySelector('svg');
  if (!original) return null;
  const { width, height } = original.getBoundingClientRect();
  const copy = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  copy.setAttribute('width', String(width));
  copy.setAttribute('height', String(height));
  copy.setAttribute('viewBox', `0 0 ${width} ${height}`);
  const ground = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  ground.setAttribute('width', '100%');
  ground.setAttribute('height', '100%');
  ground.setAttribute('fill', getComputedStyle(document.body).getPropertyValue('--sheet').trim() || '#ffffff');
  copy.append(ground);
  const frame = original.getBoundingClientRect();
  for (const canvas of element.querySelectorAll('canvas')) copy.append(imageOf(canvas, frame));
  for (const child of original.children) copy.append(styledCopy(child));
  return copy;
}

function imageOf(canvas: HTMLCanvasElement, frame: DOMRect): SVGImageElement {
  const bounds = canvas.getBoundingClientRect();
  const image = document.createElementNS('http://www.w3.org/2000/svg', 'image');
  image.setAttribute('x', String(bounds.left - frame.left));
  image.setAttribute('y', String(bounds.top - frame.top));
  image.setAttribute('width', String(bounds.width));
  image.setAttribute('height', String(bounds.height));
  // cells fill the plot and stay cells, as on screen
  image.setAttribute('preserveAspectRatio', 'none');
  image.setAttribute('image-rendering', 'pixelated');
  image.setAttribute('href', canvas.toDataURL('image/png'));
  return image;
}

function styledCopy(original: Element): Node {
  const copy = original.cloneNode(true);
  if (copy instanceof Element) writeStyles(original, copy);
  return copy;
}

function writeStyles(original: Element, copy: Element): void {
  const style = getComputedStyle(original);
  for (const name of DRAWN) copy.setAttribute(name, style.getPropertyValue(name));
  copy.removeAttribute('class');
  for (let n = 0; n < original.children.length; n++) writeStyles(original.children[n], copy.children[n]);
}

async function pngOf(text: string, { width, height }: SVGSVGElement): Promise<Blob> {
  const image = new Image();
  image.src = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' }));
  try {
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = width.baseVal.value * PNG_SCALE;
    canvas.height = height.baseVal.value * PNG_SCALE;
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((settle, refuse) =>
      canvas.toBlob((blob) => (blob ? settle(blob) : refuse(new Error('The picture could not be drawn.')))),
    );
  } finally {
    URL.revokeObjectURL(image.src);
  }
}
