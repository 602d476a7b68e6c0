import { type Camera, NoToneMapping, Scene } from 'three';
import { guardContext, makeRenderer } from './context-guard.ts';
import { CornerTriad } from './corner-triad.ts';
import { FrameLoop } from './frame-loop.ts';
import { PinnedLabels } from './pinned-labels.ts';
import styles from './scene-canvas.module.css';
import { SceneDirector } from './scene-director.ts';
import { followViewKeys } from './view-key-listener.ts';

/** Device pixels drawn for one CSS pixel, at most; more only costs. */
const MOST_DENSITY = 2;

/** Elements of the page that the drawing works with. */
export interface SceneElements {
  /** Fills the drawing's place. */
  readonly canvas: HTMLCanvasElement;
  /** Holds the canvas and is measured. */
  readonly frame: HTMLElement;
  readonly labels: HTMLElement;
  readonly triad: Element;
}

/** Starts the drawing on a canvas and keeps it as large as its frame. Returns how to end it; null where there is no WebGL. */
export function startScene({ canvas, frame, labels, triad }: SceneElements): (() => void) | null {
  const renderer = makeRenderer(canvas);
  if (!renderer) return null;
  // asking for compile errors makes the page wait for the graphics card
  renderer.debug.checkShaderErrors = import.meta.env.DEV;
  renderer.toneMapping = NoToneMapping;
  const scene = new Scene();
  let camera: Camera | null = null;
  const loop = new FrameLoop(() => {
    director.frame(performance.now());
    if (camera) renderer.render(scene, camera);
  });
  const director = new SceneDirector({
    renderer,
    scene,
    invalidate: loop.invalidate,
    onCamera: (used) => {
      camera = used;
    },
    labels: new PinnedLabels(labels, {
      root: styles['warning'],
      mark: styles['mark'],
      leader: styles['leader'],
      text: styles['text'],
    }),
    triad: new CornerTriad(Array.from(triad.querySelectorAll('g'))),
  });
  const fit = () => {
    const { clientWidth: width, clientHeight: height } = frame;
    if (width === 0 || height === 0) return;
    renderer.setPixelRatio(Math.min(window.devicePixelRatio, MOST_DENSITY));
    renderer.setSize(width, height);
    director.resize(width, height);
  };
  const observer = new ResizeObserver(fit);
  observer.observe(frame);
  const stops = [guardContext(canvas, () => director.rebuild()), followViewKeys(canvas, director.rig)];
  return () => {
    loop.stop();
    observer.disconnect();
    for (const stop of stops) stop();
    director.dispose();
    renderer.dispose();
    renderer.forceContextLoss();
  };
}
