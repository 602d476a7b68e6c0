import { sessionStore } from '../../state/stores.ts';

/** Events of a canvas whose drawing context comes and goes. */
const LOST = 'webglcontextlost';
const RESTORED = 'webglcontextrestored';

/**
 * Says when the drawing is lost and when it is back. The browser restores a context only where the loss was answered with
 * preventDefault; three.js then makes its resources again as they are drawn.
 */
export function guardContext(canvas: HTMLCanvasElement, onRestored: () => void): () => void {
  const lost = (event: Event) => {
    event.preventDefault();
    sessionStore.setState({ drawing: 'lost' });
  };
  const restored = () => {
    sessionStore.setState({ drawing: 'ready' });
    onRestored();
  };
  canvas.addEventListener(LOST, lost);
  canvas.addEventListener(RESTORED, restored);
  return () => {
    canvas.removeEventListener(LOST, lost);
    canvas.removeEventListener(RESTORED, restored);
  };
}

/** This browser can draw WebGL 2. */
export function canDraw(): boolean {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('webgl2');
  // the browser allows only so many; this one is not needed any more
  context?.getExtension('WEBGL_lose_context')?.loseContext();
  return context !== null;
}
