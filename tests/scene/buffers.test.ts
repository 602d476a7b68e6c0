import { BufferAttribute, type BufferGeometry, Mesh, Points } from 'three';
import { describe, expect, it } from 'vitest';
import type { ReachPicture } from '../../src/jobs/reach-picture.ts';
import { newFrameUniforms } from '../../src/scene/drawing/frame-uniforms.ts';
import { InkLines } from '../../src/scene/drawing/ink-lines.ts';
import { ReachDrawing } from '../../src/scene/drawing/reach-drawing.ts';

const PEN = { ink: 2, width: 1.5, opacity: 0.5 };

describe('ink lines', () => {
  const starts = (lines: InkLines) => lines.object.geometry.getAttribute('lineStart');

  it('keep their buffer from drawing to drawing, and grow it only when it is full', () => {
    const lines = new InkLines(newFrameUniforms(), 8);
    const draw = (count: number) => {
      lines.begin();
      for (let i = 0; i < count; i++) lines.segment(i, 0, 0, i, 1, 0, PEN);
      lines.end();
    };
    draw(8);
    const first = starts(lines);
    draw(5);
    expect(starts(lines)).toBe(first);
    expect(lines.object.geometry.instanceCount).toBe(5);
    draw(30);
    expect(starts(lines)).not.toBe(first);
    expect(lines.object.geometry.instanceCount).toBe(30);
    const grown = starts(lines);
    for (let i = 0; i < 30; i++) expect(grown.getX(i)).toBe(i);
    draw(32);
    expect(starts(lines)).toBe(grown);
  });

  it('make dashes that start and end inside the line', () => {
    const lines = new InkLines(newFrameUniforms(), 8);
    lines.begin();
    lines.dashes([0, 0, 0], [100, 0, 0], 10, PEN);
    lines.end();
    expect(lines.object.geometry.instanceCount).toBe(5);
    expect(starts(lines).getX(0)).toBeCloseTo(5, 5);
    expect(lines.object.geometry.getAttribute('lineEnd').getX(4)).toBeCloseTo(95, 5);
  });
});

function pictureOf(count: number, magnification: number): ReachPicture {
  const points = {
    positions: Float64Array.from({ length: 3 * count }, (_, i) => i),
    magnifications: new Float64Array(count).fill(magnification),
    limits: new Uint8Array(count).fill(2),
  };
  const indices = Uint32Array.from({ length: 3 * (count - 2) }, (_, i) => Math.floor(i / 3) + (i % 3));
  return { detail: 'fine', cloud: points, shell: { ...points, normals: new Float64Array(3 * count), indices } };
}

describe('the drawn reach', () => {
  const parts = (drawing: ReachDrawing) => {
    const [cloud, shell] = drawing.object.children;
    if (!(cloud instanceof Points) || !(shell instanceof Mesh)) throw new Error('a cloud and a shell');
    return { cloud, shell };
  };
  const share = (geometry: BufferGeometry) => {
    const attribute = geometry.getAttribute('share');
    if (!(attribute instanceof BufferAttribute)) throw new Error('shares');
    return attribute;
  };

  it('reuses its memory for pictures of any size up to the largest so far', () => {
    const drawing = new ReachDrawing(newFrameUniforms());
    const { cloud, shell } = parts(drawing);
    drawing.update(pictureOf(1000, 2), 'shell', 'firmness', false, 10);
    const memory = [
      cloud.geometry.getAttribute('position'),
      shell.geometry.getAttribute('position'),
      shell.geometry.getIndex(),
    ];
    drawing.update(pictureOf(400, 4), 'shell', 'firmness', false, 10);
    drawing.update(pictureOf(1200, 4), 'shell', 'firmness', false, 10);
    expect([
      cloud.geometry.getAttribute('position'),
      shell.geometry.getAttribute('position'),
      shell.geometry.getIndex(),
    ]).toEqual(memory);
    expect(cloud.geometry.getAttribute('position')).toBe(memory[0]);
    expect(shell.geometry.drawRange.count).toBe(3 * 1198);
    expect(cloud.geometry.drawRange.count).toBe(1200);
    drawing.update(pictureOf(5000, 4), 'shell', 'firmness', false, 10);
    expect(cloud.geometry.getAttribute('position')).not.toBe(memory[0]);
    expect(cloud.geometry.drawRange.count).toBe(5000);
  });

  it('stores firmness as the place on the colour scale', () => {
    const drawing = new ReachDrawing(newFrameUniforms());
    const { cloud } = parts(drawing);
    drawing.update(pictureOf(10, Math.sqrt(20)), 'cloud', 'firmness', false, 10);
    expect(share(cloud.geometry).array[3]).toBe(Math.round(255 / 2));
    drawing.update(pictureOf(10, Number.POSITIVE_INFINITY), 'cloud', 'firmness', false, 10);
    expect(share(cloud.geometry).array[3]).toBe(255);
  });

  it('shows what is asked for, and nothing can be hit', () => {
    const drawing = new ReachDrawing(newFrameUniforms());
    const { cloud, shell } = parts(drawing);
    const shown = () => [cloud.visible, shell.visible];
    drawing.update(null, 'shell', 'limit', false, 10);
    expect(shown()).toEqual([false, false]);
    drawing.update(pictureOf(10, 3), 'cloud', 'limit', true, 10);
    expect(shown()).toEqual([true, false]);
    drawing.update(pictureOf(10, 3), 'none', 'limit', true, 10);
    expect(shown()).toEqual([false, false]);
    expect(Object.hasOwn(cloud, 'raycast') && Object.hasOwn(shell, 'raycast')).toBe(true);
  });
});
